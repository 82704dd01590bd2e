import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { Value } from '../marks/value.tsx'
import type { JobRoute } from '../route.ts'
import { placeWords } from '../six-sides/place-words.ts'
import { TagActs } from '../six-sides/tag-acts.tsx'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { ThingLine } from '../worker/protocol.ts'
import { ChoiceLine } from './choice-line.tsx'
import { Findings } from './findings.tsx'
import { Tag } from './tag.tsx'

/** The tag of the chosen thing: findings, choices, facts. */
export function ThingTag({ box, line, route }: { readonly box: string; readonly line: ThingLine; readonly route: JobRoute }) {
  const { now } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const tag = useAsked('thing', { box, id: line.id })
  const findings = line.findings.flatMap((i) => now.answer?.findings[i] ?? [])
  return (
    <Tag name={line.letters} of={line.what} at={placeWords(line, words, units)}>
      <h3>{words.tag.findings}</h3>
      <Findings findings={findings} route={route} />
      {tag === undefined || tag === null || tag.choices.length === 0 ? null : (
        <>
          <h3>{words.tag.choices}</h3>
          <dl>
            {tag.choices.map((choice) => (
              <ChoiceLine key={choice.key} choice={choice} />
            ))}
          </dl>
        </>
      )}
      {tag === undefined || tag === null || tag.facts.length === 0 ? null : (
        <>
          <h3>{words.tag.facts}</h3>
          <dl>
            {tag.facts.map((fact) => (
              <div key={fact.key}>
                <dt>{words.facts[fact.key]}</dt>
                <dd>
                  {fact.working === undefined ? (
                    <Value fact={fact} />
                  ) : (
                    <button type="button" onClick={() => goTo({ ...route, working: fact.working! })}>
                      <span className="fold">
                        <Value fact={fact} />
                      </span>
                    </button>
                  )}
                </dd>
              </div>
            ))}
          </dl>
        </>
      )}
      <TagActs box={box} line={line} route={route} />
    </Tag>
  )
}
