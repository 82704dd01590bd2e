import { useMemo, useRef } from 'react'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { type Preferences, usePreferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { turnTo } from '../where.ts'
import type { Words } from '../words/en.ts'
import { useWords } from '../words/index.ts'
import type { Compared, PairAnswer } from '../worker/protocol.ts'
import { Hatches } from './hatches.tsx'
import { Scene } from './scene.tsx'
import { useRoom } from './use-room.ts'

const NOTHING: ReadonlySet<string> = new Set()

/** Two designs as one pair, drawn alike, what differs under them. */
export function Pair({
  route,
  boxes,
}: {
  readonly route: Extract<JobRoute, { page: 'compare' }>
  readonly boxes: readonly string[]
}) {
  const { now } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const phone = useAnatomy() === 'phone'
  const frame = useRef<HTMLElement>(null)
  const room = useRoom(frame)
  const box = route.thing?.box ?? boxes[0]
  const asked = useMemo(
    () =>
      room === null || box === undefined
        ? null
        : {
            ...{ box, with: route.with ?? null, units, letterPx: 13 },
            ...{ widthPx: phone ? room.widthPx : room.widthPx / 2 - 8, heightPx: phone ? 320 : Math.min(room.heightPx, 420) },
          },
    [room, box, route.with, units, phone],
  )
  const pair = useAsked('pair', asked)
  return (
    <section ref={frame} className={now.stale ? 'pair stale' : 'pair'} aria-label={words.pair.title}>
      {pair == null || pair === 'none' ? (
        <p className="quiet">{pair === 'none' ? words.pair.none : words.states.reading}</p>
      ) : (
        <>
          <p className="pair-choices">
            {words.pair.with}
            {pair.choices.map((id) => (
              <button key={id} type="button" aria-pressed={id === pair.with} onClick={() => turnTo({ ...route, with: id })}>
                <span className="fold">{id === 'before' ? words.pair.before : id}</span>
              </button>
            ))}
          </p>
          {pair.with === 'before' ? null : <p className="quiet">{words.pair.first}</p>}
          <div className="pair-room">
            <Half one={pair.left} name={pair.with === 'before' ? words.pair.beforeName(pair.left.name) : pair.left.name} />
            <Half one={pair.right} name={pair.with === 'before' ? words.pair.afterName(pair.right.name) : pair.right.name} />
          </div>
          <Differences pair={pair} words={words} units={units} />
        </>
      )}
    </section>
  )
}

function Half({ one, name }: { readonly one: Compared; readonly name: string }) {
  const { view } = one
  return (
    <figure>
      <figcaption>{name}</figcaption>
      {view === null ? null : (
        <svg width={view.widthPx} height={view.heightPx} role="img" aria-label={view.said}>
          <Hatches />
          <Scene view={view} dyed={NOTHING} />
        </svg>
      )}
    </figure>
  )
}

function Differences({
  pair,
  words,
  units,
}: {
  readonly pair: PairAnswer
  readonly words: Words
  readonly units: Preferences['units']
}) {
  const { left, right } = pair
  const value = ({ value, unit }: Compared['facts'][number]): string =>
    value === null ? words.pair.unknown : typeof value === 'string' ? value : shown(value, unit, units)
  const rows = [
    ...left.facts.map((fact, i) => {
      const other = right.facts[i]
      return {
        key: words.pair.facts[fact.key],
        a: value(fact),
        b: other === undefined ? words.pair.unknown : value(other),
        marks: [null, null] as const,
      }
    }),
    ...left.verdicts.flatMap(({ id, verdict }, i) => {
      const other = right.verdicts[i]?.verdict ?? 'not built'
      const mark = (of: typeof verdict) => (of === 'not built' ? null : of)
      return verdict === 'not built' && other === 'not built'
        ? []
        : [
            {
              key: words.questions[id],
              a: words.verdicts[verdict],
              b: words.verdicts[other],
              marks: [mark(verdict), mark(other)] as const,
            },
          ]
    }),
  ]
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that slides must be reached by keys
    <section className="yard-table pair-table" tabIndex={0} aria-label={words.pair.table}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.pair.what}</th>
            <th scope="col">{left.name}</th>
            <th scope="col">{right.name}</th>
            <th scope="col">{words.pair.differs}</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ key, a, b, marks }) => (
            <tr key={key}>
              <th scope="row">{key}</th>
              <td>
                {marks[0] === null ? null : <Mark of={marks[0]} />} {a}
              </td>
              <td>
                {marks[1] === null ? null : <Mark of={marks[1]} />} {b}
              </td>
              <td>{a === b ? <span className="quiet">{words.pair.same}</span> : <b>{words.pair.differs}</b>}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
