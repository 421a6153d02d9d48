/** A mesh file that is open: the name that jobs give it, and what stands for its bytes. */
export interface MeshRef {
  readonly name: string;
  /** Another for every opening, so that it also tells whether the bytes are the same. */
  readonly id: string;
}
