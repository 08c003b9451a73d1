export type EngineFile = [path: string, bytes: Uint8Array];
export function pythonFiles(folder: string): string[];
export function sources(root: string): EngineFile[];
export function compiled(root: string): EngineFile[];
export function packed(files: EngineFile[]): Buffer;
