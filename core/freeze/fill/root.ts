const mostRounds = 100;

/**
 * Where a function that only falls passes through zero between `low` and `high`: Ridders' method (IEEE Trans. Circuits
 * Syst. 26, 1979), which never leaves the bracket, to a billionth of it. An end itself where it does not change sign.
 */
export function rootOfFalling(f: (x: number) => number, low: number, high: number): number {
  let [a, b] = [low, high];
  let fa = f(a);
  if (!(fa > 0)) return a;
  let fb = f(b);
  if (!(fb < 0)) return b;
  const enough = 1e-9 * (high - low);
  const narrow = (x: number, fx: number): void => {
    if (fx > 0) {
      if (x > a) [a, fa] = [x, fx];
    } else if (x < b) [b, fb] = [x, fx];
  };
  let last = Number.NaN;
  for (let round = 0; round < mostRounds && b - a > enough; round++) {
    const middle = (a + b) / 2;
    const fm = f(middle);
    if (fm === 0) return middle;
    const x = middle + ((middle - a) * fm) / Math.sqrt(fm * fm - fa * fb);
    const fx = f(x);
    if (fx === 0) return x;
    narrow(middle, fm);
    narrow(x, fx);
    // It hardly moves any more: does the function change sign just beside it?
    if (Math.abs(x - last) <= enough) {
      const beside = fx > 0 ? x + enough : x - enough;
      narrow(beside, f(beside));
    }
    last = x;
  }
  return (a + b) / 2;
}
