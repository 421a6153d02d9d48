/** Code names and symbols as people read them. */

const lowered = (name: string): string =>
  name.replace(
    /([a-z0-9])([A-Z])/g,
    (_, before: string, capital: string) => `${before} ${capital.toLowerCase()}`,
  );

/** `helixAngle` → `Helix angle`. */
export const fieldWords = (name: string): string => {
  const words = lowered(name);
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** A sentence with the code names in it spelt as words: `a fifth of faceWidth` → `a fifth of face width`. */
export const plainWords = (text: string): string => text.replace(/\b[a-z]{2,}(?:[A-Z][a-z]+)+\b/g, lowered);

/** A symbol in the pieces it is set in: `h_aP*` → h, subscript aP, star. */
export interface SymbolParts {
  readonly letter: string;
  readonly subscript: string;
  /** Such as the star of sizes in modules. */
  readonly mark: string;
}

const greek: Readonly<Record<string, string>> = {
  alpha: 'α',
  beta: 'β',
  gamma: 'γ',
  delta: 'δ',
  epsilon: 'ε',
  theta: 'θ',
  lambda: 'λ',
  mu: 'μ',
  rho: 'ρ',
  sigma: 'σ',
  tau: 'τ',
  phi: 'φ',
};

export function readSymbol(symbol: string): SymbolParts {
  const [, letter = symbol, subscript = '', mark = ''] = /^([^_*]+)(?:_([^*]+))?(\*?)$/.exec(symbol) ?? [];
  return { letter: Object.hasOwn(greek, letter) ? greek[letter]! : letter, subscript, mark };
}
