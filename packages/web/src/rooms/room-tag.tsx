import type { Verdict } from '@plugstead/engine/kernel'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import type { JobRoute } from '../route.ts'
import { ChoiceLine } from '../tag/choice-line.tsx'
import { Findings } from '../tag/findings.tsx'
import { Tag } from '../tag/tag.tsx'
import { useWords } from '../words/index.ts'
import { RoomFacts } from './room-facts.tsx'

type Room = Extract<JobRoute, { page: 'room' }>

const RANK: Readonly<Record<Verdict, number>> = { fails: 0, unknown: 1, tight: 2, holds: 3 }

/** The tag of a room: no wire, its question's findings, worst first, its choices, and what it rests on that nobody told. */
export function RoomTag({ route }: { readonly route: Room }) {
  const { now } = useJob()
  const words = useWords()
  const tag = useAsked('roomTag', { question: route.question })
  const findings = (now.answer?.findings ?? [])
    .filter((f) => f.question === route.question)
    .toSorted((a, b) => RANK[a.verdict] - RANK[b.verdict])
  return (
    <Tag name={words.questions[route.question]} at={words.asks[route.question]} wired={false}>
      <h3>{words.tag.findings}</h3>
      <Findings findings={findings} route={route} />
      {tag == null || tag.choices.length === 0 ? null : (
        <>
          <h3>{words.tag.choices}</h3>
          <dl>
            {tag.choices.map((choice) => (
              <ChoiceLine key={choice.key} choice={choice} />
            ))}
          </dl>
        </>
      )}
      {tag == null || tag.facts.length === 0 ? null : (
        <>
          <h3>{words.tag.facts}</h3>
          <RoomFacts facts={tag.facts} />
        </>
      )}
    </Tag>
  )
}
