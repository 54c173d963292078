;; One period of the ladder of supply-ladder.ts, and what it was like: its two nodes behind the first stand side by side in a pair of 64-bit floats
;; (WebAssembly SIMD). It is that law and no other: supply-ladder-wide.crosscheck.test.ts holds the two against each other. Whoever calls writes the
;; numbers below and reads the answers there.
;;
;;      0  crest, drop and ohm of the source; perveance and that times the series factor; conductance of all as the rectifier sees it, its inverse,
;;         the series factor; what a step's first volts give the next step's sum; 2 (2C/h) of the first node, twice what it draws, twice what all draw
;;     96  pairs, 16 bytes each: what the past of the second node gives to the volts of both, and that of the third; what those give the next sum;
;;         shares s1 and s12; what the chokes' past gives the next sum; 2 (2C/h); twice what is drawn; how a choke's past moves with its volts, and
;;         with itself; conductance of the branches
;;    272  at the start: past of the first node less what it draws, the sum as the rectifier sees it; of the other two; of the chokes
;;    320  at the end: volts of the first node, 16 bytes; of the other two; amperes of the branches
;;    368  what the period was like: sum, lowest, highest, cosine and sine of each node, the first node's alone, then pairs; sum, sum of squares and
;;         highest of the current
;;    512  source, 8192 bytes; then cosine, sine, root of the diode's drop, its current, volts of the first node, each as many; pairs of the others
(module
  (memory (import "ladder" "memory") 2)

  ;; the root s above 0 of cubic s^3 + square s^2 = right, by Halley
  (func $root (param $cubic f64) (param $square f64) (param $right f64) (param $s f64) (result f64)
    (local $n i32) (local $off f64) (local $slope f64) (local $step f64) (local $bend f64)
    (if (i32.eqz (f64.gt (local.get $s) (f64.const 0)))
      (then (local.set $s (f64.sqrt (f64.div (local.get $right) (local.get $square))))))
    (block $done (loop $next
      (local.set $bend (f64.mul (local.get $cubic) (local.get $s)))
      (local.set $off (f64.sub
        (f64.mul (f64.mul (local.get $s) (local.get $s)) (f64.add (local.get $bend) (local.get $square)))
        (local.get $right)))
      (local.set $bend (f64.mul (local.get $bend) (f64.const 3)))
      (local.set $slope (f64.mul (local.get $s) (f64.add (local.get $bend) (f64.add (local.get $square) (local.get $square)))))
      (local.set $step (f64.div (f64.mul (local.get $off) (local.get $slope))
        (f64.sub (f64.mul (local.get $slope) (local.get $slope))
          (f64.mul (local.get $off) (f64.add (local.get $bend) (local.get $square))))))
      (local.set $s (if (result f64) (f64.lt (local.get $step) (local.get $s))
        (then (f64.sub (local.get $s) (local.get $step)))
        (else (f64.mul (local.get $s) (f64.const 0.125)))))
      (br_if $done (f64.lt (f64.abs (local.get $step)) (f64.mul (local.get $s) (f64.const 1e-4))))
      (br_if $next (i32.lt_u (local.tee $n (i32.add (local.get $n) (i32.const 1))) (i32.const 60)))))
    (local.get $s))

  ;; bytes: 8 for each step of the period
  (func (export "run") (param $bytes i32)
    (local $i i32) (local $h0 f64) (local $rest f64) (local $v0 f64) (local $e f64) (local $over f64) (local $a f64) (local $s f64)
    (local $root f64) (local $before f64) (local $kept f64) (local $moved f64) (local $next f64)
    (local $h v128) (local $o v128) (local $was v128) (local $p v128) (local $q v128) (local $v v128) (local $w v128)
    (local $crest f64) (local $drop f64) (local $ohm f64) (local $perveance f64) (local $cubic f64) (local $sum f64)
    (local.set $crest (f64.load offset=0 (i32.const 0)))
    (local.set $drop (f64.load offset=8 (i32.const 0)))
    (local.set $ohm (f64.load offset=16 (i32.const 0)))
    (local.set $perveance (f64.load offset=24 (i32.const 0)))
    (local.set $cubic (f64.load offset=32 (i32.const 0)))
    (local.set $sum (f64.load offset=40 (i32.const 0)))
    (local.set $h0 (f64.load offset=272 (i32.const 0)))
    (local.set $rest (f64.load offset=280 (i32.const 0)))
    (local.set $h (v128.load offset=288 (i32.const 0)))
    (local.set $o (v128.load offset=304 (i32.const 0)))
    (loop $step
      ;; what the past gives the volts of the nodes behind the first
      (local.set $p (f64x2.add (local.get $h) (local.get $o)))
      (local.set $w (f64x2.sub (local.get $p) (i8x16.shuffle 8 9 10 11 12 13 14 15 8 9 10 11 12 13 14 15 (local.get $o) (local.get $o))))
      (local.set $q (f64x2.add
        (f64x2.mul (v128.load offset=96 (i32.const 0)) (i8x16.shuffle 0 1 2 3 4 5 6 7 0 1 2 3 4 5 6 7 (local.get $w) (local.get $w)))
        (f64x2.mul (v128.load offset=112 (i32.const 0)) (i8x16.shuffle 8 9 10 11 12 13 14 15 8 9 10 11 12 13 14 15 (local.get $p) (local.get $p)))))
      ;; and the next step's sum, but for the volts of this one
      (local.set $w (f64x2.add
        (f64x2.sub (f64x2.mul (v128.load offset=128 (i32.const 0)) (local.get $q)) (f64x2.mul (v128.load offset=144 (i32.const 0)) (local.get $h)))
        (f64x2.mul (v128.load offset=160 (i32.const 0)) (local.get $o))))
      (local.set $next (f64.sub (f64.add (f64x2.extract_lane 0 (local.get $w)) (f64x2.extract_lane 1 (local.get $w)))
        (f64.add (local.get $h0) (f64.load offset=88 (i32.const 0)))))
      (local.set $e (f64.mul (local.get $crest) (f64.load offset=512 (local.get $i))))
      (local.set $over (f64.sub (f64.mul (local.get $sum) (f64.sub (local.get $e) (local.get $drop))) (local.get $rest)))
      (if (f64.le (local.get $over) (f64.const 0))
        (then
          (local.set $v0 (f64.mul (local.get $rest) (f64.load offset=48 (i32.const 0))))
          (local.set $root (f64.const 0))
          (local.set $before (f64.const 0))
          (local.set $moved (f64.const 0))
          (local.set $a (f64.const 0))
          (f64.store offset=25088 (local.get $i) (f64.const 0)))
        (else (if (f64.gt (local.get $perveance) (f64.const 0))
          (then
            ;; the run before was near; else the steps before tell where the root lies
            (local.set $kept (f64.load offset=25088 (local.get $i)))
            (if (f64.gt (local.get $kept) (f64.const 0))
              (then
                (local.set $s (call $root (local.get $cubic) (local.get $sum) (local.get $over) (f64.add (local.get $kept) (local.get $moved))))
                (local.set $moved (f64.sub (local.get $s) (local.get $kept))))
              (else
                (local.set $s (call $root (local.get $cubic) (local.get $sum) (local.get $over)
                  (if (result f64) (f64.gt (local.get $before) (f64.const 0))
                    (then (f64.sub (f64.add (local.get $root) (local.get $root)) (local.get $before)))
                    (else (local.get $root)))))
                (local.set $moved (f64.const 0))))
            (local.set $before (local.get $root))
            (local.set $root (local.get $s))
            (f64.store offset=25088 (local.get $i) (local.get $s))
            (local.set $s (f64.mul (local.get $s) (local.get $s)))
            (local.set $a (f64.mul (local.get $perveance) (f64.mul (local.get $root) (local.get $s))))
            (local.set $v0 (f64.sub (f64.sub (local.get $e) (f64.mul (local.get $a) (local.get $ohm))) (local.get $s))))
          (else
            (local.set $a (f64.div (local.get $over) (f64.load offset=56 (i32.const 0))))
            (local.set $v0 (f64.sub (f64.sub (local.get $e) (f64.mul (local.get $a) (local.get $ohm))) (local.get $drop)))))))
      (local.set $rest (f64.add (f64.mul (f64.load offset=64 (i32.const 0)) (local.get $v0)) (local.get $next)))
      (local.set $v (f64x2.add (f64x2.mul (v128.load offset=144 (i32.const 0)) (f64x2.splat (local.get $v0))) (local.get $q)))
      (local.set $h0 (f64.sub (f64.sub (f64.mul (f64.load offset=72 (i32.const 0)) (local.get $v0)) (local.get $h0))
        (f64.load offset=80 (i32.const 0))))
      (local.set $h (f64x2.sub (f64x2.mul (v128.load offset=176 (i32.const 0)) (local.get $v))
        (f64x2.add (local.get $h) (v128.load offset=192 (i32.const 0)))))
      ;; across the branches: each node less the one behind it
      (local.set $w (f64x2.sub
        (i8x16.shuffle 0 1 2 3 4 5 6 7 16 17 18 19 20 21 22 23 (f64x2.splat (local.get $v0)) (local.get $v)) (local.get $v)))
      (local.set $was (local.get $o))
      (local.set $o (f64x2.add (f64x2.mul (v128.load offset=208 (i32.const 0)) (local.get $w))
        (f64x2.mul (v128.load offset=224 (i32.const 0)) (local.get $o))))
      (f64.store offset=33280 (local.get $i) (local.get $a))
      (f64.store offset=41472 (local.get $i) (local.get $v0))
      (v128.store offset=49664 (i32.shl (local.get $i) (i32.const 1)) (local.get $v))
      (br_if $step (i32.lt_u (local.tee $i (i32.add (local.get $i) (i32.const 8))) (local.get $bytes))))
    (f64.store offset=320 (i32.const 0) (local.get $v0))
    (v128.store offset=336 (i32.const 0) (local.get $v))
    (v128.store offset=352 (i32.const 0) (f64x2.add (f64x2.mul (v128.load offset=240 (i32.const 0)) (local.get $w)) (local.get $was))))

  ;; sums over the period that ran last
  (func (export "sums") (param $bytes i32)
    (local $i i32) (local $v0 f64) (local $a f64) (local $cos f64) (local $sin f64) (local $v v128)
    (local $sum0 f64) (local $low0 f64) (local $high0 f64) (local $re0 f64) (local $im0 f64)
    (local $sum v128) (local $low v128) (local $high v128) (local $re v128) (local $im v128)
    (local $sumA f64) (local $squareA f64) (local $highA f64)
    (local.set $low0 (f64.const inf))
    (local.set $high0 (f64.const -inf))
    (local.set $low (f64x2.splat (f64.const inf)))
    (local.set $high (f64x2.splat (f64.const -inf)))
    (loop $step
      (local.set $v0 (f64.load offset=41472 (local.get $i)))
      (local.set $v (v128.load offset=49664 (i32.shl (local.get $i) (i32.const 1))))
      (local.set $cos (f64.load offset=8704 (local.get $i)))
      (local.set $sin (f64.load offset=16896 (local.get $i)))
      (local.set $a (f64.load offset=33280 (local.get $i)))
      (local.set $sum0 (f64.add (local.get $sum0) (local.get $v0)))
      (local.set $low0 (f64.min (local.get $low0) (local.get $v0)))
      (local.set $high0 (f64.max (local.get $high0) (local.get $v0)))
      (local.set $re0 (f64.add (local.get $re0) (f64.mul (local.get $v0) (local.get $cos))))
      (local.set $im0 (f64.add (local.get $im0) (f64.mul (local.get $v0) (local.get $sin))))
      (local.set $sum (f64x2.add (local.get $sum) (local.get $v)))
      (local.set $low (f64x2.pmin (local.get $low) (local.get $v)))
      (local.set $high (f64x2.pmax (local.get $high) (local.get $v)))
      (local.set $re (f64x2.add (local.get $re) (f64x2.mul (local.get $v) (f64x2.splat (local.get $cos)))))
      (local.set $im (f64x2.add (local.get $im) (f64x2.mul (local.get $v) (f64x2.splat (local.get $sin)))))
      (local.set $sumA (f64.add (local.get $sumA) (local.get $a)))
      (local.set $squareA (f64.add (local.get $squareA) (f64.mul (local.get $a) (local.get $a))))
      (local.set $highA (f64.max (local.get $highA) (local.get $a)))
      (br_if $step (i32.lt_u (local.tee $i (i32.add (local.get $i) (i32.const 8))) (local.get $bytes))))
    (f64.store offset=368 (i32.const 0) (local.get $sum0))
    (f64.store offset=376 (i32.const 0) (local.get $low0))
    (f64.store offset=384 (i32.const 0) (local.get $high0))
    (f64.store offset=392 (i32.const 0) (local.get $re0))
    (f64.store offset=400 (i32.const 0) (local.get $im0))
    (v128.store offset=408 (i32.const 0) (local.get $sum))
    (v128.store offset=424 (i32.const 0) (local.get $low))
    (v128.store offset=440 (i32.const 0) (local.get $high))
    (v128.store offset=456 (i32.const 0) (local.get $re))
    (v128.store offset=472 (i32.const 0) (local.get $im))
    (f64.store offset=488 (i32.const 0) (local.get $sumA))
    (f64.store offset=496 (i32.const 0) (local.get $squareA))
    (f64.store offset=504 (i32.const 0) (local.get $highA))))
