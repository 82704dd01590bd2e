import { useCallback, useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { exampleNames, exampleText } from '../examples.ts'
import { today } from '../hands/clock.ts'
import { textAfter } from '../store/acts.ts'
import { openDays, shopKey } from '../store/days.ts'
import type { DayAnswer, Planned } from '../worker/protocol.ts'

export interface JobOfDay {
  readonly id: string
  readonly file: string
  readonly text: string
  /** False: an example that nobody has opened. */
  readonly kept: boolean
}

export interface DayNow {
  readonly jobs: readonly JobOfDay[]
  readonly answers: Readonly<Record<string, DayAnswer>>
  /** Jobs read or refused, and how many cannot be read. */
  readonly readCount: number
  readonly unreadCount: number
  readonly state: 'reading' | 'read' | 'stopped'
  readonly day: string
}

const days = openDays()

/** Name of the program as it was built: another one may answer otherwise. */
const program = (): string => document.querySelector<HTMLScriptElement>('script[type=module][src]')?.src ?? ''

/** Reads one job after another in an engine of its own, those kept here first; what was read today already is not read again. */
export function useDay(round: number) {
  const { jobs, dayEngine } = useBench()
  const [now, setNow] = useState<DayNow>({
    ...{ jobs: [], answers: {}, readCount: 0, unreadCount: 0, state: 'reading', day: today() },
  })
  const [again, setAgain] = useState(0)
  // biome-ignore lint/correctness/useExhaustiveDependencies: round and again ask for another reading
  useEffect(() => {
    let left = false
    void (async () => {
      const day = today()
      const shop = shopKey(await jobs.shop().catch(() => undefined))
      const kept = await Promise.all(
        (await jobs.all()).map(async ({ id, file, base }): Promise<JobOfDay> => {
          return { id, file, text: textAfter(base, await jobs.acts(id)), kept: true }
        }),
      )
      const names = exampleNames.filter((name) => !kept.some((job) => job.id === name))
      const examples = await Promise.all(
        names.map(async (name): Promise<JobOfDay> => {
          return { id: name, file: `${name}.yaml`, text: (await exampleText(name)) ?? '', kept: false }
        }),
      )
      if (left) return
      const all = [...kept, ...examples]
      setNow({ jobs: all, answers: {}, readCount: 0, unreadCount: 0, state: 'reading', day })
      const key = (text: string) => ({ text, today: day, shop, program: program() })
      const wait: { readonly job: JobOfDay; readonly planned: Planned | null }[] = []
      for (const job of all) {
        const had = await days.get(job.id, key(job.text)).catch(() => null)
        if (left) return
        const answer = had?.answer ?? null
        if (answer === null) wait.push({ job, planned: had?.planned ?? null })
        else setNow((was) => read(was, job.id, answer))
      }
      // What is planned already is told at once; a plan takes seconds.
      const soonest = [...wait.filter((one) => one.planned !== null), ...wait.filter((one) => one.planned === null)]
      for (const { job, planned } of soonest) {
        const result = await dayEngine.call('day', { file: job.file, text: job.text, today: day, planned })
        if (left) return
        if (result.ok) void days.put(job.id, key(job.text), result.value).catch(() => {})
        setNow((was) => (result.ok ? read(was, job.id, result.value.answer) : unread(was)))
      }
      if (!left) setNow((was) => ({ ...was, state: 'read' }))
    })().catch(() => {
      if (!left) setNow((was) => ({ ...was, state: 'stopped' }))
    })
    return () => {
      left = true
      dayEngine.stop()
    }
  }, [jobs, dayEngine, round, again])
  const stop = useCallback(() => dayEngine.stop(), [dayEngine])
  return { now, stop, again: () => setAgain((n) => n + 1) }
}

const read = (was: DayNow, id: string, answer: DayAnswer): DayNow => ({
  ...was,
  answers: { ...was.answers, [id]: answer },
  readCount: was.readCount + 1,
})
const unread = (was: DayNow): DayNow => ({ ...was, readCount: was.readCount + 1, unreadCount: was.unreadCount + 1 })
