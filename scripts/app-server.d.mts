import type { Server } from 'node:http'

export const HEADERS: Readonly<Record<string, string>>
export function fileAsked(folder: string, address: string): string | null
export function serve(
  folder: string,
  port?: number,
): Promise<{ readonly server: Server; readonly address: string; readonly usual: boolean; readonly close: () => Promise<void> }>
