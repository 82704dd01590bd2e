export const APP_FOLDER: string
export function sourcesHash(root: string): string
export function buildApp(root: string, node: string): string | null
