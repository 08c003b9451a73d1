export function start(): Promise<(call: string, args: string) => string>;
