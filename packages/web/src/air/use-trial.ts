import { useEffect, useRef, useState, useSyncExternalStore } from 'react'
import { useBench, useJob } from '../bench.ts'
import type { AirTrial, AirTryView } from '../worker/air/types.ts'
import { first } from './pieces.ts'

/** What is being tried, and what the year comes to with it. */
export interface Trying {
  readonly pins: AirTrial
  readonly set: (pins: AirTrial) => void
  /** Of the last pins that were answered; null: nothing is tried, or nothing was answered yet. */
  readonly answer: AirTryView | null
  readonly busy: boolean
  /** Counts answers. */
  readonly n: number
}

const NONE: AirTrial = {}
const isNone = (pins: AirTrial): boolean => Object.keys(pins).length === 0

interface Wanted {
  readonly box: string | null
  readonly pins: AirTrial
}
let wantedNow: Wanted = { box: null, pins: NONE }
const listeners = new Set<() => void>()
const listen = (listener: () => void): (() => void) => {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** Asks the room of the air for the year of a box with these choices: from the room itself, and from a mend beside it. */
export function wantTrial(box: string | null, pins: AirTrial): void {
  wantedNow = { box, pins }
  for (const listener of listeners) listener()
}

/** What is wanted to be tried in the room. */
export const useWanted = (): Wanted => useSyncExternalStore(listen, () => wantedNow)

/** Runs the year with other choices, one run at a time, always of the last that was chosen. A job that was answered anew has nothing tried. */
export function useTrial(box: string | null): Trying {
  const { engine } = useBench()
  const { round } = useJob().now
  const asked = useWanted()
  const pins = asked.box === box ? asked.pins : NONE
  const [heard, setHeard] = useState<{ readonly pins: AirTrial; readonly answer: AirTryView | null; readonly n: number }>({
    ...{ pins: NONE, answer: null, n: 0 },
  })
  const wanted = useRef(pins)
  const running = useRef(false)
  wanted.current = pins
  // biome-ignore lint/correctness/useExhaustiveDependencies: another answer of the job, or another box, begins with nothing tried
  useEffect(() => {
    setHeard(({ n }) => ({ pins: NONE, answer: null, n: n + 1 }))
    return () => {
      // A mend of another box asks for it and for its own trial at once.
      if (wantedNow.box === box) wantTrial(null, NONE)
    }
  }, [round, box])
  useEffect(() => {
    const next = (): void => {
      const own = wanted.current
      if (running.current) return
      running.current = true
      first(engine.call('airTry', { box, pins: isNone(own) ? null : own })).then(
        (answer) => {
          running.current = false
          setHeard(({ n }) => ({ pins: own, answer, n: n + 1 }))
          if (wanted.current !== own) next()
        },
        () => {
          running.current = false
        },
      )
    }
    if (pins !== heard.pins) next()
  }, [engine, box, pins, heard.pins])
  const busy = pins !== heard.pins
  return { pins, set: (next) => wantTrial(box, next), answer: isNone(pins) ? null : heard.answer, busy, n: heard.n }
}
