;; The law of if-strip.ts for many frequencies at once, two to a step (WebAssembly SIMD, pairs of 64-bit floats). It is that law and no other:
;; if-strip-wide.crosscheck.test.ts holds the two against each other. Whoever calls writes the numbers of a strip and the frequencies into the
;; memory and reads the answers there; nothing in it lasts from one call to the next. Three short passes, since a processor looks ahead over many
;; steps of a short one.
;;
;;      0  what hangs on the first plate: conductance, capacitance, sum of 1/L, series capacitance
;;     32  ladder: C0, 1/Cm, Lm, r of the series arm, the same of the shunt arm, termination, its inverse
;;    112  product of gm M of all cans
;;    128  cans, 96 bytes each: twelve numbers as StripResponse lays them
;;   4096  frequencies, Hz, at most 512, an even number of them
;;   8192  power gain, or the real part of the gain;  12288  its imaginary part; before that the susceptance of what hangs there, where it is told
;;  16384  between the passes: denominator of the cans, Re and Im, and what stands above it, 4096 bytes each; of a power the size of that denominator in place of its Re
;;  32768  arms of the ladder: impedance of the series one, Re and Im, admittance of the shunt one, Re and Im, 4096 bytes each
;;
;; Names are those of if-strip.ts; Re and Im end the parts of a complex number. Both reactances of an arm are taken times w: no 1/w is wanted.
(module
  (memory (import "looks" "memory") 1)

  ;; bytes: 8 for each frequency; end: of the last can, 128 + 96 n; loaded: 1 where something hangs there, 2 where its susceptance is told
  ;; frequency by frequency; filtered: 1 where a filter stands in the strip; complex: 1 for Re and Im
  (func (export "respond") (param $bytes i32) (param $end i32) (param $loaded i32) (param $filtered i32) (param $complex i32)
    (call $cans (local.get $bytes) (local.get $end) (local.get $loaded) (local.get $complex))
    (if (local.get $filtered) (then
      (call $arms (local.get $bytes))
      (call $ladder (local.get $bytes))))
    (if (local.get $complex)
      (then (call $gain (local.get $bytes) (local.get $filtered)))
      (else (call $power (local.get $bytes) (local.get $filtered)))))

  (func $cans (param $bytes i32) (param $end i32) (param $loaded i32) (param $complex i32)
    (local $i i32) (local $k i32) (local $w v128) (local $w2 v128) (local $dRe v128) (local $dIm v128) (local $above v128)
    (local $re v128) (local $im v128) (local $t v128) (local $u v128) (local $g v128) (local $b v128) (local $y v128) (local $d v128)
    (loop $next
      (local.set $w (f64x2.mul (v128.load offset=4096 (local.get $i)) (f64x2.splat (f64.const 6.283185307179586))))
      (local.set $w2 (f64x2.mul (local.get $w) (local.get $w)))
      ;; first can: c0 + w2 (c1 + w2 c2), w (c3 + w2 c4); above it w times the product of all c5
      (local.set $dRe (f64x2.add (v128.load64_splat offset=128 (i32.const 0)) (f64x2.mul (local.get $w2)
        (f64x2.add (v128.load64_splat offset=136 (i32.const 0)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=144 (i32.const 0)))))))
      (local.set $dIm (f64x2.mul (local.get $w)
        (f64x2.add (v128.load64_splat offset=152 (i32.const 0)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=160 (i32.const 0))))))
      (local.set $above (f64x2.mul (local.get $w) (v128.load64_splat offset=112 (i32.const 0))))

      (if (local.get $loaded) (then
        ;; admittance behind the series capacitor, (g b + j (g^2 + y d)) b / (g^2 + d^2): here g, b, y and d are taken times w. What stands over
        ;; the fraction is taken times what stands under it, and so is the gain's numerator: no division is wanted
        (local.set $g (f64x2.mul (local.get $w) (v128.load64_splat offset=0 (i32.const 0))))
        (local.set $b (f64x2.mul (local.get $w2) (v128.load64_splat offset=24 (i32.const 0))))
        (local.set $y (if (result v128) (i32.eq (local.get $loaded) (i32.const 2))
          (then (f64x2.mul (local.get $w) (v128.load offset=12288 (local.get $i))))
          (else (f64x2.sub (f64x2.mul (local.get $w2) (v128.load64_splat offset=8 (i32.const 0)))
            (v128.load64_splat offset=16 (i32.const 0))))))
        (local.set $d (f64x2.add (local.get $y) (local.get $b)))
        (local.set $t (f64x2.mul (local.get $g) (local.get $g)))
        (local.set $u (f64x2.mul (local.get $w) (f64x2.add (local.get $t) (f64x2.mul (local.get $d) (local.get $d)))))
        (local.set $above (f64x2.mul (local.get $above) (local.get $u)))
        (local.set $dRe (f64x2.mul (local.get $dRe) (local.get $u)))
        (local.set $dIm (f64x2.mul (local.get $dIm) (local.get $u)))
        (local.set $re (f64x2.mul (local.get $b) (f64x2.mul (local.get $g) (local.get $b))))
        (local.set $im (f64x2.mul (local.get $b) (f64x2.add (local.get $t) (f64x2.mul (local.get $y) (local.get $d)))))
        ;; times what the plate drives: c6 + w2 c7, w (c8 + w2 c9)
        (local.set $t (f64x2.add (v128.load64_splat offset=176 (i32.const 0))
          (f64x2.mul (local.get $w2) (v128.load64_splat offset=184 (i32.const 0)))))
        (local.set $u (f64x2.mul (local.get $w)
          (f64x2.add (v128.load64_splat offset=192 (i32.const 0)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=200 (i32.const 0))))))
        (local.set $dRe (f64x2.add (local.get $dRe)
          (f64x2.sub (f64x2.mul (local.get $re) (local.get $t)) (f64x2.mul (local.get $im) (local.get $u)))))
        (local.set $dIm (f64x2.add (local.get $dIm)
          (f64x2.add (f64x2.mul (local.get $re) (local.get $u)) (f64x2.mul (local.get $im) (local.get $t)))))))

      (local.set $k (i32.const 224))
      (if (local.get $complex)
        (then
          ;; a can's gain is j w gm M over its denominator: the j turns the denominator by -j
          (local.set $t (local.get $dIm))
          (local.set $dIm (f64x2.neg (local.get $dRe)))
          (local.set $dRe (local.get $t))
          (block $done (loop $can
            (br_if $done (i32.ge_u (local.get $k) (local.get $end)))
            (local.set $re (f64x2.add (v128.load64_splat offset=0 (local.get $k)) (f64x2.mul (local.get $w2)
              (f64x2.add (v128.load64_splat offset=8 (local.get $k)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=16 (local.get $k)))))))
            (local.set $im (f64x2.mul (local.get $w)
              (f64x2.add (v128.load64_splat offset=24 (local.get $k)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=32 (local.get $k))))))
            (local.set $t (f64x2.add (f64x2.mul (local.get $dRe) (local.get $im)) (f64x2.mul (local.get $dIm) (local.get $re))))
            (local.set $dIm (f64x2.sub (f64x2.mul (local.get $dIm) (local.get $im)) (f64x2.mul (local.get $dRe) (local.get $re))))
            (local.set $dRe (local.get $t))
            (local.set $above (f64x2.mul (local.get $above) (local.get $w)))
            (local.set $k (i32.add (local.get $k) (i32.const 96)))
            (br $can)))
          (v128.store offset=16384 (local.get $i) (local.get $dRe))
          (v128.store offset=20480 (local.get $i) (local.get $dIm)))
        (else
          ;; of the power only sizes are wanted
          (local.set $t (f64x2.add (f64x2.mul (local.get $dRe) (local.get $dRe)) (f64x2.mul (local.get $dIm) (local.get $dIm))))
          (block $done (loop $can
            (br_if $done (i32.ge_u (local.get $k) (local.get $end)))
            (local.set $re (f64x2.add (v128.load64_splat offset=0 (local.get $k)) (f64x2.mul (local.get $w2)
              (f64x2.add (v128.load64_splat offset=8 (local.get $k)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=16 (local.get $k)))))))
            (local.set $im (f64x2.add (v128.load64_splat offset=24 (local.get $k)) (f64x2.mul (local.get $w2) (v128.load64_splat offset=32 (local.get $k)))))
            (local.set $t (f64x2.mul (local.get $t) (f64x2.add (f64x2.mul (local.get $re) (local.get $re))
              (f64x2.mul (local.get $w2) (f64x2.mul (local.get $im) (local.get $im))))))
            (local.set $above (f64x2.mul (local.get $above) (local.get $w)))
            (local.set $k (i32.add (local.get $k) (i32.const 96)))
            (br $can)))
          (v128.store offset=16384 (local.get $i) (local.get $t))))
      (v128.store offset=24576 (local.get $i) (local.get $above))
      (local.set $i (i32.add (local.get $i) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $i) (local.get $bytes)))))

  ;; arms of the ladder, one division for both: z = (r + j x) / (1 + j w C0 (r + j x)), y = j w C0 + 1 / (r + j x)
  (func $arms (param $bytes i32)
    (local $i i32) (local $w v128) (local $w2 v128) (local $x v128) (local $r v128) (local $bs v128) (local $qRe v128) (local $qIm v128)
    (local $size v128) (local $px v128) (local $pr v128) (local $shunt v128) (local $all v128) (local $scale v128)
    (loop $next
      (local.set $w (f64x2.mul (v128.load offset=4096 (local.get $i)) (f64x2.splat (f64.const 6.283185307179586))))
      (local.set $w2 (f64x2.mul (local.get $w) (local.get $w)))
      (local.set $x (f64x2.sub (f64x2.mul (local.get $w2) (v128.load64_splat offset=48 (i32.const 0))) (v128.load64_splat offset=40 (i32.const 0))))
      (local.set $r (f64x2.mul (local.get $w) (v128.load64_splat offset=56 (i32.const 0))))
      (local.set $bs (f64x2.mul (local.get $w) (v128.load64_splat offset=32 (i32.const 0))))
      (local.set $qRe (f64x2.sub (local.get $w) (f64x2.mul (local.get $bs) (local.get $x))))
      (local.set $qIm (f64x2.mul (local.get $bs) (local.get $r)))
      (local.set $size (f64x2.add (f64x2.mul (local.get $qRe) (local.get $qRe)) (f64x2.mul (local.get $qIm) (local.get $qIm))))
      (local.set $px (f64x2.sub (f64x2.mul (local.get $w2) (v128.load64_splat offset=80 (i32.const 0))) (v128.load64_splat offset=72 (i32.const 0))))
      (local.set $pr (f64x2.mul (local.get $w) (v128.load64_splat offset=88 (i32.const 0))))
      (local.set $shunt (f64x2.add (f64x2.mul (local.get $pr) (local.get $pr)) (f64x2.mul (local.get $px) (local.get $px))))
      (local.set $all (f64x2.div (f64x2.splat (f64.const 1)) (f64x2.mul (local.get $size) (local.get $shunt))))
      (local.set $scale (f64x2.mul (local.get $all) (local.get $shunt)))
      (v128.store offset=32768 (local.get $i) (f64x2.mul (local.get $scale)
        (f64x2.add (f64x2.mul (local.get $r) (local.get $qRe)) (f64x2.mul (local.get $x) (local.get $qIm)))))
      (v128.store offset=36864 (local.get $i) (f64x2.mul (local.get $scale)
        (f64x2.sub (f64x2.mul (local.get $x) (local.get $qRe)) (f64x2.mul (local.get $r) (local.get $qIm)))))
      (local.set $scale (f64x2.mul (local.get $w) (f64x2.mul (local.get $all) (local.get $size))))
      (v128.store offset=40960 (local.get $i) (f64x2.mul (local.get $pr) (local.get $scale)))
      (v128.store offset=45056 (local.get $i) (f64x2.sub (f64x2.mul (local.get $w) (v128.load64_splat offset=64 (i32.const 0)))
        (f64x2.mul (local.get $px) (local.get $scale))))
      (local.set $i (i32.add (local.get $i) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $i) (local.get $bytes)))))

  ;; four like sections, each of trace t = 2 + z y, twice doubled: with q = t^2 - 2 the source gives v = q (q + t (z / r + y r)) - 2 for one volt at
  ;; the end; the gain is 2 / v
  (func $ladder (param $bytes i32)
    (local $i i32) (local $zRe v128) (local $zIm v128) (local $yRe v128) (local $yIm v128)
    (local $tRe v128) (local $tIm v128) (local $eRe v128) (local $eIm v128) (local $qRe v128) (local $qIm v128)
    (loop $next
      (local.set $zRe (v128.load offset=32768 (local.get $i)))
      (local.set $zIm (v128.load offset=36864 (local.get $i)))
      (local.set $yRe (v128.load offset=40960 (local.get $i)))
      (local.set $yIm (v128.load offset=45056 (local.get $i)))
      (local.set $tRe (f64x2.add (f64x2.splat (f64.const 2))
        (f64x2.sub (f64x2.mul (local.get $zRe) (local.get $yRe)) (f64x2.mul (local.get $zIm) (local.get $yIm)))))
      (local.set $tIm (f64x2.add (f64x2.mul (local.get $zRe) (local.get $yIm)) (f64x2.mul (local.get $zIm) (local.get $yRe))))
      (local.set $eRe (f64x2.add (f64x2.mul (local.get $zRe) (v128.load64_splat offset=104 (i32.const 0)))
        (f64x2.mul (local.get $yRe) (v128.load64_splat offset=96 (i32.const 0)))))
      (local.set $eIm (f64x2.add (f64x2.mul (local.get $zIm) (v128.load64_splat offset=104 (i32.const 0)))
        (f64x2.mul (local.get $yIm) (v128.load64_splat offset=96 (i32.const 0)))))
      (local.set $qRe (f64x2.sub (f64x2.sub (f64x2.mul (local.get $tRe) (local.get $tRe)) (f64x2.mul (local.get $tIm) (local.get $tIm)))
        (f64x2.splat (f64.const 2))))
      (local.set $qIm (f64x2.mul (f64x2.add (local.get $tRe) (local.get $tRe)) (local.get $tIm)))
      ;; q + t e stands in z now
      (local.set $zRe (f64x2.add (local.get $qRe)
        (f64x2.sub (f64x2.mul (local.get $tRe) (local.get $eRe)) (f64x2.mul (local.get $tIm) (local.get $eIm)))))
      (local.set $zIm (f64x2.add (local.get $qIm)
        (f64x2.add (f64x2.mul (local.get $tRe) (local.get $eIm)) (f64x2.mul (local.get $tIm) (local.get $eRe)))))
      (v128.store offset=32768 (local.get $i) (f64x2.sub
        (f64x2.sub (f64x2.mul (local.get $qRe) (local.get $zRe)) (f64x2.mul (local.get $qIm) (local.get $zIm)))
        (f64x2.splat (f64.const 2))))
      (v128.store offset=36864 (local.get $i)
        (f64x2.add (f64x2.mul (local.get $qRe) (local.get $zIm)) (f64x2.mul (local.get $qIm) (local.get $zRe))))
      (local.set $i (i32.add (local.get $i) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $i) (local.get $bytes)))))

  ;; above^2 over the size of what stands under it; with a filter 4 above^2, times the size of v
  (func $power (param $bytes i32) (param $filtered i32)
    (local $i i32) (local $above v128) (local $below v128) (local $vRe v128) (local $vIm v128)
    (loop $next
      (local.set $above (v128.load offset=24576 (local.get $i)))
      (local.set $below (v128.load offset=16384 (local.get $i)))
      (if (local.get $filtered) (then
        (local.set $vRe (v128.load offset=32768 (local.get $i)))
        (local.set $vIm (v128.load offset=36864 (local.get $i)))
        (local.set $above (f64x2.add (local.get $above) (local.get $above)))
        (local.set $below (f64x2.mul (local.get $below)
          (f64x2.add (f64x2.mul (local.get $vRe) (local.get $vRe)) (f64x2.mul (local.get $vIm) (local.get $vIm)))))))
      (v128.store offset=8192 (local.get $i) (f64x2.div (f64x2.mul (local.get $above) (local.get $above)) (local.get $below)))
      (local.set $i (i32.add (local.get $i) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $i) (local.get $bytes)))))

  ;; above / (dRe + j dIm), with a filter 2 above over that times v
  (func $gain (param $bytes i32) (param $filtered i32)
    (local $i i32) (local $dRe v128) (local $dIm v128) (local $above v128) (local $scale v128) (local $vRe v128) (local $vIm v128)
    (loop $next
      (local.set $dRe (v128.load offset=16384 (local.get $i)))
      (local.set $dIm (v128.load offset=20480 (local.get $i)))
      (local.set $above (v128.load offset=24576 (local.get $i)))
      (if (local.get $filtered) (then
        (local.set $vRe (v128.load offset=32768 (local.get $i)))
        (local.set $vIm (v128.load offset=36864 (local.get $i)))
        (local.set $above (f64x2.add (local.get $above) (local.get $above)))
        (local.set $scale (f64x2.sub (f64x2.mul (local.get $dRe) (local.get $vRe)) (f64x2.mul (local.get $dIm) (local.get $vIm))))
        (local.set $dIm (f64x2.add (f64x2.mul (local.get $dRe) (local.get $vIm)) (f64x2.mul (local.get $dIm) (local.get $vRe))))
        (local.set $dRe (local.get $scale))))
      (local.set $scale (f64x2.div (local.get $above)
        (f64x2.add (f64x2.mul (local.get $dRe) (local.get $dRe)) (f64x2.mul (local.get $dIm) (local.get $dIm)))))
      (v128.store offset=8192 (local.get $i) (f64x2.mul (local.get $dRe) (local.get $scale)))
      (v128.store offset=12288 (local.get $i) (f64x2.neg (f64x2.mul (local.get $dIm) (local.get $scale))))
      (local.set $i (i32.add (local.get $i) (i32.const 16)))
      (br_if $next (i32.lt_u (local.get $i) (local.get $bytes))))))
