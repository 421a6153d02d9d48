import { SymbolText } from '../form/symbol.js';

/** A row's words with the symbols in them set as symbols: `tip diameter d_a`. */
export function WithSymbols({ text }: { readonly text: string }) {
  return (
    <>
      {text
        .split(/(\p{L}_\p{L}+)/u)
        .map((part, i) => (i % 2 === 1 ? <SymbolText key={i} symbol={part} /> : part))}
    </>
  );
}
