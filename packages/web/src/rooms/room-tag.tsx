import type { Verdict } from '@plugstead/engine/kernel'
import { useJob } from '../bench.ts'
import type { JobRoute } from '../route.ts'
import { Findings } from '../tag/findings.tsx'
import { Tag } from '../tag/tag.tsx'
import { useWords } from '../words/index.ts'

type Room = Extract<JobRoute, { page: 'room' }>

const RANK: Readonly<Record<Verdict, number>> = { fails: 0, unknown: 1, tight: 2, holds: 3 }

/** The tag of a room: no wire, its question's findings, worst first. */
export function RoomTag({ route }: { readonly route: Room }) {
  const { now } = useJob()
  const words = useWords()
  const findings = (now.answer?.findings ?? [])
    .filter((f) => f.question === route.question)
    .toSorted((a, b) => RANK[a.verdict] - RANK[b.verdict])
  return (
    <Tag name={words.questions[route.question]} at={words.asks[route.question]} wired={false}>
      <h3>{words.tag.findings}</h3>
      <Findings findings={findings} route={route} />
    </Tag>
  )
}
