/** AssemblyScript's own library of functions, a port of musl's: sums, products and bits alone. */
export function sin(x: f64): f64 {
  return NativeMath.sin(x);
}
export function cos(x: f64): f64 {
  return NativeMath.cos(x);
}
export function tan(x: f64): f64 {
  return NativeMath.tan(x);
}
export function asin(x: f64): f64 {
  return NativeMath.asin(x);
}
export function acos(x: f64): f64 {
  return NativeMath.acos(x);
}
export function atan(x: f64): f64 {
  return NativeMath.atan(x);
}
export function atan2(y: f64, x: f64): f64 {
  return NativeMath.atan2(y, x);
}
export function atanh(x: f64): f64 {
  return NativeMath.atanh(x);
}
export function exp(x: f64): f64 {
  return NativeMath.exp(x);
}
export function log(x: f64): f64 {
  return NativeMath.log(x);
}
export function log2(x: f64): f64 {
  return NativeMath.log2(x);
}
export function log10(x: f64): f64 {
  return NativeMath.log10(x);
}
export function cbrt(x: f64): f64 {
  return NativeMath.cbrt(x);
}
export function pow(x: f64, y: f64): f64 {
  return NativeMath.pow(x, y);
}
