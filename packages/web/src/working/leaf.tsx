import type { WorkingBlock, WorkingRow } from '@plugstead/book/working'
import { useAsked } from '../ask.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { Inline } from '../marks/inline.tsx'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { fold, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { Turning } from './turning.tsx'

/** The derivation of one number, line by line. */
export function Leaf({ route }: { readonly route: JobRoute }) {
  const words = useWords()
  const blocks = useAsked('working', route.working === undefined ? null : { ids: [route.working] })
  if (route.working === undefined) return null
  const [block] = blocks ?? []
  return (
    <section className="leaf" aria-label={words.working.label} tabIndex={-1}>
      <header>
        <h2>
          {block === undefined ? blocks === undefined ? words.working.reading : words.working.none : <Inline of={block.title} />}
          {block === undefined ? null : (
            <span>
              {' '}
              <Inline of={block.note} />
            </span>
          )}
        </h2>
        <button type="button" className="close" onClick={() => fold()}>
          <span className="fold">{words.working.close}</span>
        </button>
      </header>
      {block === undefined ? null : (
        <Derivation block={block} working={route.working} unfold={(working) => turnTo({ ...route, working })} />
      )}
    </section>
  )
}

function Derivation({
  block,
  working,
  unfold,
}: {
  readonly block: WorkingBlock
  readonly working: string
  readonly unfold: (working: string) => void
}) {
  const words = useWords()
  const { units } = usePreferences()
  const { judgement } = block
  return (
    <div className="derivation">
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than its leaf is scrolled by keys */}
      <section className="steps" tabIndex={0} aria-label={words.working.steps}>
        <table>
          <thead>
            <tr>
              {words.working.columns.map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {block.rows.map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: lines of a derivation never change places
              <Step key={i} row={row} unfold={unfold} />
            ))}
            {block.crossCheck.map((row, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: lines of a derivation never change places
              <Step key={`cross ${i}`} row={row} unfold={unfold} />
            ))}
            {judgement === null ? null : (
              <tr className="judgement">
                <td />
                <td>
                  <Inline of={judgement.expression} />
                </td>
                <td>
                  <Inline of={judgement.values} />
                </td>
                <td>
                  <span className={judgement.reversed ? 'said-fails' : 'said'}>
                    {block.verdict === null ? null : <Mark of={block.verdict} />} <Inline of={judgement.result} />
                  </span>
                </td>
                <td>
                  <Bar bar={judgement.barFrac} stop={judgement.stopFrac} />
                  <Inline of={judgement.rests} unfold={unfold} /> <Inline of={judgement.tight} />
                </td>
              </tr>
            )}
          </tbody>
        </table>
      </section>
      <div className="beside">
        <Turning working={working} />
        {block.notes.map((note, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: notes never change places
          <p key={i}>
            <Inline of={note} unfold={unfold} />
          </p>
        ))}
        {block.assumed.length === 0 ? null : (
          <>
            <h3>{words.working.assumed}</h3>
            <ul>
              {block.assumed.map(({ said, path }) => (
                <li key={path}>
                  <span className="assumed">{sentence(said, units)}</span>
                </li>
              ))}
            </ul>
          </>
        )}
      </div>
    </div>
  )
}

function Step({ row, unfold }: { readonly row: WorkingRow; readonly unfold: (working: string) => void }) {
  return (
    <tr>
      <td>
        <Inline of={row.symbol} />
      </td>
      <td>
        <Inline of={row.expression} />
      </td>
      <td>
        <Inline of={row.values} />
      </td>
      <td>
        <Inline of={row.result} />
      </td>
      <td>
        <Inline of={row.rests} unfold={unfold} />
      </td>
    </tr>
  )
}

/** Demand as a bar, limit as a stop, one scale. */
function Bar({ bar, stop }: { readonly bar: number; readonly stop: number }) {
  const long = 130
  return (
    <svg className="bar" width="140" height="16" aria-hidden="true">
      <path d={`M0 8H${(bar * long).toFixed(1)}`} strokeWidth="6" />
      <path d={`M${(stop * long + 1).toFixed(1)} 0V16`} strokeWidth="2.5" />
    </svg>
  )
}
