/** Four floats at once: short names for what the sweeps do. */

export function all(x: f32): v128 {
  return f32x4.splat(x);
}
export function add(a: v128, b: v128): v128 {
  return f32x4.add(a, b);
}
export function sub(a: v128, b: v128): v128 {
  return f32x4.sub(a, b);
}
export function mul(a: v128, b: v128): v128 {
  return f32x4.mul(a, b);
}
export function div(a: v128, b: v128): v128 {
  return f32x4.div(a, b);
}
export function over(a: v128, b: v128): v128 {
  return f32x4.gt(a, b);
}
/** `yes` where the mask is set. */
export function pick(mask: v128, yes: v128, no: v128): v128 {
  return v128.bitselect(yes, no, mask);
}
export function any(mask: v128): bool {
  return v128.any_true(mask);
}

/** A float of the head. */
export function head(at: i32): f32 {
  return load<f32>(<usize>at);
}
/** A word of the head. */
export function word(at: i32): u32 {
  return load<u32>(<usize>at);
}
