import { useMemo } from 'react'
import { useJob } from '../bench.ts'

/** Things that a mend which is being tried would change: drawn in proposed dashes. Of one box, or of all. */
export function useProposed(box?: string): ReadonlySet<string> {
  const touched = useJob().now.trial?.touched
  return useMemo(
    () => new Set((touched ?? []).filter((t) => box === undefined || t.box === box).map((t) => t.id)),
    [touched, box],
  )
}
