export function runtime(root: string): string | null
export function newEnough(version: string): boolean
export const NO_RUNTIME: string
