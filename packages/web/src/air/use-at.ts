import type { ShortRun } from '@plugstead/engine/air'
import { useEffect, useRef, useState } from 'react'
import type { AirAt, JobRoute } from '../route.ts'
import { goTo, turnTo } from '../where.ts'
import type { AirPick, AirRoomView } from '../worker/air/types.ts'

/** Days that are shown, and an hour of the year or of the short run. */
export interface Here {
  readonly pick: AirPick
  readonly atH: number
}

type AirRoute = Extract<JobRoute, { page: 'room' }>

/** Whoever runs through the hours writes the address where he stops: a browser takes no more of them. */
const SETTLE_MS = 250

/**
 * What the address says is shown, and how that is changed. A jump is a step that the browser goes back over; steps from week to week and hour
 * to hour are not.
 */
export function useAt(route: AirRoute) {
  const said = route.air ?? NOTHING
  /** Not yet in the address. */
  const [own, setOwn] = useState<AirAt | null>(null)
  const latest = useRef(route)
  latest.current = route
  const key = JSON.stringify(said)
  // biome-ignore lint/correctness/useExhaustiveDependencies: another address goes before what was not yet written
  useEffect(() => setOwn(null), [key])
  useEffect(() => {
    if (own === null) return
    const timer = setTimeout(() => turnTo({ ...latest.current, air: own }), SETTLE_MS)
    return () => clearTimeout(timer)
  }, [own])
  const air = own ?? said
  return {
    air,
    step: (here: Here): void => setOwn({ ...air, ...written(here) }),
    jump: (here: Here | null): void => {
      setOwn(null)
      const { run: _run, days: _days, ...box } = air
      goTo({ ...latest.current, air: { ...box, ...(here === null ? {} : written(here)) } })
    },
    /** Another box begins with its own first look. */
    toBox: (box: string): void => turnTo({ ...latest.current, air: { box } }),
    toEnd: (end: AirRoomView['end']): void => turnTo({ ...latest.current, air: { ...air, end } }),
  }
}
const NOTHING: AirAt = {}

const written = ({ pick, atH }: Here): Pick<AirAt, 'run' | 'days'> =>
  pick.kind === 'short' ? { run: pick.run, days: { fromH: 0, atH } } : { days: { fromH: pick.fromH, atH } }

/** What the address says, as far as this year holds it; null: nothing, or a short run that was not run. */
export function hereOf({ run, days }: AirAt, room: AirRoomView, weekH: number): Here | null {
  if (run !== undefined) {
    const short = room.shorts.find((s) => s.run === run)
    if (short === undefined) return null
    return { pick: { kind: 'short', run: run as ShortRun }, atH: Math.min(short.hoursCount - 1, days?.atH ?? 0) }
  }
  if (days === undefined) return null
  const fromH = Math.max(0, Math.min(days.fromH, room.hoursCount - weekH))
  return { pick: { kind: 'week', fromH }, atH: Math.max(0, Math.min(room.hoursCount - 1, days.atH)) }
}
