import { useSyncExternalStore } from 'react'

/** How this page stands to the build that is kept on the device. */
export interface KeptApp {
  /** It came from the device: the server did not answer. */
  readonly away: boolean
  /** Another build has taken over since this page was opened. */
  readonly older: boolean
}

let now: KeptApp = { away: cameFromDevice(), older: false }
const listeners = new Set<() => void>()

export const useKeptApp = (): KeptApp =>
  useSyncExternalStore(
    (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    () => now,
  )

/** Keeps the app on this device, after `quiet`: nothing a person waits for shares its line with it. Where the browser refuses, the server is needed each time. */
export function keepApp(entry: string, quiet: Promise<unknown>): void {
  // Only a built app has a keeper.
  if (!import.meta.env.PROD || !('serviceWorker' in navigator)) return
  const mine = new URL(entry).pathname
  navigator.serviceWorker.addEventListener('message', ({ data }: MessageEvent<{ readonly kept?: readonly string[] }>) => {
    if (data.kept === undefined || data.kept.includes(mine)) return
    now = { ...now, older: true }
    for (const listener of listeners) listener()
  })
  navigator.serviceWorker.startMessages()
  void quiet
    .then(() => navigator.serviceWorker.register('/keeper.js'))
    .then((keeper) => keeper.update())
    .catch(() => {})
}

function cameFromDevice(): boolean {
  const [start] = performance.getEntriesByType('navigation') as PerformanceNavigationTiming[]
  return start?.serverTiming?.some(({ name }) => name === 'kept') ?? false
}
