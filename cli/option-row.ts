/** One option of a command, as help shows it. All values are read as text: units are the core's to read. */
export interface OptionRow {
  /** Without dashes, for example `helix-angle` or `stock.flank`. */
  readonly name: string;
  /** Heading it stands under in help. */
  readonly group: string;
  readonly help: string;
  /** What stands for the value in help: `mm`, `word`. */
  readonly value?: string;
  /** `from 1 to 45°` */
  readonly range?: string;
  /** Shown as the default. */
  readonly fallback?: string;
  /** Checked by the parser. */
  readonly choices?: readonly string[];
  /** Takes no value. */
  readonly flag?: boolean;
}

/** `helix-angle` → `helixAngle`: the spelling of plate jobs, which options may have too. */
export const codeName = (option: string): string =>
  option.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
