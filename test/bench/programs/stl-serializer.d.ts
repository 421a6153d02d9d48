/** The public face of @jscad/stl-serializer, which ships no types. */
declare module '@jscad/stl-serializer' {
  const serializer: {
    serialize(
      options: { binary?: boolean },
      ...objects: readonly unknown[]
    ): readonly (ArrayBuffer | string)[];
  };
  export default serializer;
}
