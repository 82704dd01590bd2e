export function installed(root: string): 'full' | 'running' | 'missing'
export function install(root: string, wanted: 'full' | 'running'): string | null
