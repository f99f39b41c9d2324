declare module 'dxf-writer/src/Handle.js' {
  /** The counter that every entity of every drawing takes its handle from. */
  const Handle: { seed: number };
  export default Handle;
}
