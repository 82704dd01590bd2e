import { useEffect, useMemo } from 'react'
import type { JobSession } from '../store/session.ts'
import type { GlassView, SheetAsked } from '../worker/protocol.ts'
import { fitted } from './fitted.ts'

/** A sheet as it is laid out; until it is, as it was drawn last. What was laid out for the answer shown is kept for the next time. */
export function useKept(
  laidOut: GlassView | null | undefined,
  asked: SheetAsked | null,
  session: JobSession,
  stale: boolean,
): GlassView | null | undefined {
  const key = JSON.stringify(asked)
  useEffect(() => {
    if (laidOut && !stale && key !== 'null') session.keepSheet(JSON.parse(key) as SheetAsked, laidOut)
  }, [laidOut, key, session, stale])
  return useMemo(() => {
    if (laidOut || key === 'null') return laidOut
    const wanted = JSON.parse(key) as SheetAsked
    const kept = session.sheet(wanted)
    return kept === undefined ? laidOut : fitted(kept, wanted)
  }, [laidOut, key, session])
}
