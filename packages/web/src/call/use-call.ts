import type { CallAnswers } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import { useCallback, useEffect, useRef, useState } from 'react'
import { useBench } from '../bench.ts'
import { EngineFault } from '../engine/client.ts'
import { idOf } from '../files.ts'
import { today } from '../hands/clock.ts'
import type { FirstAnswer, JobAnswer, RankedLine } from '../worker/protocol.ts'
import { type Answers, draft, keepDraft } from './draft.ts'

/** Everything the sheet shows, as plain data. */
export interface CallNow {
  readonly answers: Answers
  /** Of the answers, in the words of the terminal; `path` says of which. */
  readonly problems: readonly Problem[]
  /** Of the document that came of them. */
  readonly planProblems: readonly Problem[]
  readonly plan: JobAnswer | null
  readonly first: FirstAnswer | null
  readonly ranked: readonly RankedLine[] | null
  /** What is shown is of the answers before. */
  readonly stale: { readonly plan: boolean; readonly ranked: boolean }
  readonly work: { readonly begunCount: number; readonly knownCount: number } | null
  readonly fault: string | null
}

const EMPTY: Omit<CallNow, 'answers'> = {
  ...{ problems: [], planProblems: [], plan: null, first: null, ranked: null, stale: { plan: false, ranked: false } },
  ...{ work: null, fault: null },
}

export const given = (answers: Answers): CallAnswers => ({ where: '', machines: '', ...answers })
export const fileOf = (answers: Answers): string => `${idOf(`${answers.where ?? ''}.`)}.yaml`

/** The call in hand: typed, planned after each answer, ranked after that. Work on answers that have changed since is stopped. */
export function useCall() {
  const { engine, scribe } = useBench()
  const [now, setNow] = useState<CallNow>(() => ({ answers: draft(), ...EMPTY }))
  const set = useCallback((part: Partial<CallNow>) => setNow((was) => ({ ...was, ...part })), [])
  const run = useRef({ asked: 0, text: '' })

  const stop = useCallback(() => {
    run.current.asked++
    if (engine.busy) engine.stop()
  }, [engine])

  const plan = useCallback(
    async (text: string, file: string) => {
      stop()
      const { asked } = run.current
      run.current.text = text
      const here = (): boolean => asked === run.current.asked
      setNow((was) => ({
        ...was,
        ...{ stale: { plan: was.plan !== null, ranked: was.ranked !== null }, planProblems: [], fault: null },
        work: { begunCount: 0, knownCount: 0 },
      }))
      try {
        const result = await engine.call('open', { file, text }, (begunCount, knownCount) => {
          if (here()) set({ work: { begunCount, knownCount } })
        })
        if (!here()) return
        if (!result.ok) return set({ work: null, planProblems: result.problems })
        const first = await engine.call('first', null)
        if (!here()) return
        setNow((was) => ({ ...was, plan: result.value, first, work: null, stale: { ...was.stale, plan: false } }))
        const ranked = await engine.call('rank', { call: file.replace(/\.yaml$/, '') })
        if (here()) setNow((was) => ({ ...was, ranked, stale: { ...was.stale, ranked: false } }))
      } catch (thrown) {
        if (!here()) return
        set({ work: null, fault: thrown instanceof EngineFault ? thrown.code : String(thrown) })
      }
    },
    [engine, set, stop],
  )

  /** After an answer: what cannot be understood is said at once; what can is planned. */
  const settle = useCallback(
    async (answers: Answers) => {
      const read = await scribe.call('begin', { answers: given(answers), days: { called: today() } })
      set({ problems: read.ok ? [] : read.problems })
      if (read.ok) {
        if (read.value !== run.current.text) void plan(read.value, fileOf(answers))
        return
      }
      stop()
      run.current.text = ''
      setNow((was) => ({ ...was, work: null, stale: { plan: was.plan !== null, ranked: was.ranked !== null } }))
    },
    [scribe, set, plan, stop],
  )

  useEffect(() => {
    if (Object.keys(draft()).length > 0) void settle(draft())
    return stop
  }, [settle, stop])

  const type = useCallback((id: keyof CallAnswers, text: string) => {
    setNow((was) => {
      const answers = { ...was.answers, [id]: text }
      keepDraft(answers)
      return { ...was, answers }
    })
  }, [])

  const wipe = useCallback(
    (answers: Answers = {}) => {
      stop()
      run.current.text = ''
      keepDraft(answers)
      setNow({ answers, ...EMPTY })
      if (Object.keys(answers).length > 0) void settle(answers)
    },
    [stop, settle],
  )
  return { now, type, settle, wipe }
}
