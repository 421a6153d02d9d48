/** What a run tells of its work as it goes. */

/** In the order of the work: making parts, putting them on trees, laying out plates and papers, freezing moulds, writing files. */
export type StageKind = 'parts' | 'trees' | 'plates' | 'moulds' | 'files';

/** That a stage begins (without a name), or how far one item of it is. */
export interface ProgressEvent {
  readonly stage: StageKind;
  /** Items of the stage in all. */
  readonly of: number;
  /** The item. */
  readonly name?: string;
  /** How far it is: 0 begun (also where left out), 1 done, made or refused. */
  readonly share?: number;
  /** It is done because it was made before. */
  readonly kept?: boolean;
}
