import { createContext, useContext, useEffect, useState, useSyncExternalStore } from 'react'
import { Engine, startJudge, startScribe } from './engine/client.ts'
import { exampleText } from './examples.ts'
import { openDrawings } from './store/drawn.ts'
import { type Jobs, openJobs } from './store/jobs.ts'
import { type Bench as JobBench, type JobNow, JobSession } from './store/session.ts'

/** What the whole tab works with: one engine, one scribe, one store; and an engine for the day sheet, so that no job waits for it. */
interface Bench extends JobBench {
  readonly dayEngine: Engine
}

export async function setUp(): Promise<Bench> {
  const jobs: Jobs = await openJobs()
  const [engine, judge, dayEngine] = [new Engine(), new Engine(startJudge), new Engine()]
  const shop = await jobs.shop().catch(() => undefined)
  if (shop !== undefined) for (const one of [engine, judge, dayEngine]) void one.serve(shop)
  return { engine, judge, scribe: new Engine(startScribe), jobs, drawings: openDrawings(), dayEngine }
}

const OnBench = createContext<Bench | null>(null)
export const BenchProvider = OnBench.Provider

export function useBench(): Bench {
  const bench = useContext(OnBench)
  if (bench === null) throw new Error('no bench')
  return bench
}

/** The session of a job; `undefined` while it is looked for, `null` when nothing of this name is kept and no example is called so. */
export function useSession(id: string): JobSession | null | undefined {
  const bench = useBench()
  const [open, setOpen] = useState<{ readonly id: string; readonly session: JobSession | null }>()
  useEffect(() => {
    let left = false
    let session: JobSession | null = null
    void (async () => {
      const drawn = bench.drawings.get(id)
      let job = await bench.jobs.get(id)
      if (job === undefined) {
        const text = await exampleText(id)
        if (text !== null) {
          job = { id, file: `${id}.yaml`, base: text }
          await bench.jobs.put(job)
        }
      }
      if (left) return
      session = job === undefined ? null : await JobSession.open(bench, job, await drawn)
      if (left) session?.close()
      else setOpen({ id, session })
    })()
    return () => {
      left = true
      session?.close()
    }
  }, [bench, id])
  return open?.id === id ? open.session : undefined
}

const OnSession = createContext<JobSession | null>(null)
export const SessionProvider = OnSession.Provider

export function useJob(): { readonly session: JobSession; readonly now: JobNow } {
  const session = useContext(OnSession)
  if (session === null) throw new Error('no session')
  const now = useSyncExternalStore(session.subscribe, session.now)
  return { session, now }
}
