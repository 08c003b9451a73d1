/// <reference types="vite/client" />

declare module "virtual:engine-files" {
  /** Address of the JSON asset that holds the engine's Python files by path. */
  const address: string;
  export default address;
}
