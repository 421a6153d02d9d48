/** The ids of a field's elements, from one prefix a form and the field's name. */
export interface FieldIds {
  /** The control that holds the value. */
  readonly entry: string;
  readonly label: string;
  readonly help: string;
  readonly facts: string;
  readonly problem: string;
}

export const fieldIds = (prefix: string, name: string): FieldIds => {
  const stem = `${prefix}-${name}`;
  return {
    entry: stem,
    label: `${stem}-label`,
    help: `${stem}-help`,
    facts: `${stem}-facts`,
    problem: `${stem}-problem`,
  };
};
