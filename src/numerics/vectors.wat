;; Long sums of pairs of 64-bit floats (WebAssembly SIMD): what shares.ts does most. vectors.crosscheck.test.ts holds it against plain arithmetic.
;; Places and lengths are in bytes; lengths are multiples of 64, what stands beyond a column's end is zero.
(module
  (memory (import "room" "memory") 1)

  ;; sum of the products of two columns: four sums side by side, since one alone waits for each of its steps
  (func (export "dot") (param $a i32) (param $b i32) (param $bytes i32) (result f64)
    (local $end i32) (local $s0 v128) (local $s1 v128) (local $s2 v128) (local $s3 v128)
    (local.set $end (i32.add (local.get $a) (local.get $bytes)))
    (block $done (loop $next
      (br_if $done (i32.ge_u (local.get $a) (local.get $end)))
      (local.set $s0 (f64x2.add (local.get $s0) (f64x2.mul (v128.load offset=0 (local.get $a)) (v128.load offset=0 (local.get $b)))))
      (local.set $s1 (f64x2.add (local.get $s1) (f64x2.mul (v128.load offset=16 (local.get $a)) (v128.load offset=16 (local.get $b)))))
      (local.set $s2 (f64x2.add (local.get $s2) (f64x2.mul (v128.load offset=32 (local.get $a)) (v128.load offset=32 (local.get $b)))))
      (local.set $s3 (f64x2.add (local.get $s3) (f64x2.mul (v128.load offset=48 (local.get $a)) (v128.load offset=48 (local.get $b)))))
      (local.set $a (i32.add (local.get $a) (i32.const 64)))
      (local.set $b (i32.add (local.get $b) (i32.const 64)))
      (br $next)))
    (local.set $s0 (f64x2.add (f64x2.add (local.get $s0) (local.get $s1)) (f64x2.add (local.get $s2) (local.get $s3))))
    (f64.add (f64x2.extract_lane 0 (local.get $s0)) (f64x2.extract_lane 1 (local.get $s0))))

  ;; takes so much of one column from another, in place
  (func (export "subtract") (param $from i32) (param $of i32) (param $part f64) (param $bytes i32)
    (local $end i32) (local $p v128)
    (local.set $p (f64x2.splat (local.get $part)))
    (local.set $end (i32.add (local.get $from) (local.get $bytes)))
    (block $done (loop $next
      (br_if $done (i32.ge_u (local.get $from) (local.get $end)))
      (v128.store offset=0 (local.get $from)
        (f64x2.sub (v128.load offset=0 (local.get $from)) (f64x2.mul (local.get $p) (v128.load offset=0 (local.get $of)))))
      (v128.store offset=16 (local.get $from)
        (f64x2.sub (v128.load offset=16 (local.get $from)) (f64x2.mul (local.get $p) (v128.load offset=16 (local.get $of)))))
      (v128.store offset=32 (local.get $from)
        (f64x2.sub (v128.load offset=32 (local.get $from)) (f64x2.mul (local.get $p) (v128.load offset=32 (local.get $of)))))
      (v128.store offset=48 (local.get $from)
        (f64x2.sub (v128.load offset=48 (local.get $from)) (f64x2.mul (local.get $p) (v128.load offset=48 (local.get $of)))))
      (local.set $from (i32.add (local.get $from) (i32.const 64)))
      (local.set $of (i32.add (local.get $of) (i32.const 64)))
      (br $next)))))
