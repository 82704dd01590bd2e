/** What one tab tells the others: this job has a new act. */
interface Told {
  readonly job: string
  readonly n: number
}

/** Tabs of one browser. Where there is no channel, each stands alone; the store still sees to it that no act is lost. */
export interface Tabs {
  tell(told: Told): void
  close(): void
}

export function joinTabs(heard: (told: Told) => void): Tabs {
  if (typeof BroadcastChannel === 'undefined') return { tell: () => {}, close: () => {} }
  const channel = new BroadcastChannel('plugstead')
  channel.addEventListener('message', ({ data }: MessageEvent<Told>) => heard(data))
  return { tell: (told) => channel.postMessage(told), close: () => channel.close() }
}
