import type { SetBlock, SetRow } from '@plugstead/book'
import type { ReactNode } from 'react'
import { useWords } from '../words/index.ts'
import { mm, usePaper } from './on-paper.ts'
import { Head, On, Widths } from './on-sheet.tsx'

const COLUMNS_MM = [6, 17, 31, 39, 25, 43]
/** Room for the ticks of whoever follows by hand. */
const CHECK_MM = [14, 11]
const BAR_MM = 17

/** A derivation, a step a line; the judgement last. A check print has two boxes more a line. */
export function Working({ block }: { readonly block: Extract<SetBlock, { readonly k: 'working' }> }) {
  const { check } = usePaper()
  const j = block.judgement
  return (
    <div className={block.breaks ? 'paper-working' : 'paper-working whole'}>
      <Head title={block.title} note={block.note} verdict={block.verdict} outline={block.outline} />
      <table>
        <Widths of={check ? [...COLUMNS_MM, ...CHECK_MM] : COLUMNS_MM} />
        <Heads />
        <tbody>
          {block.rows.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
            <Row key={i} row={row} before={check ? String(i + 1) : ''} />
          ))}
          {block.crossCheck.map((row, i) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
            <Row key={i} row={row} before="" />
          ))}
          {j === null ? null : (
            <Row
              row={j}
              before=""
              judged={
                <span className={j.reversed ? 'said-fails' : 'said-outline'}>
                  <On of={j.result} />
                </span>
              }
              rests={
                <>
                  <Bar barFrac={j.barFrac} stopFrac={j.stopFrac} /> {j.tight} <On of={j.rests} />
                </>
              }
            />
          )}
        </tbody>
      </table>
      {block.notes.map((note, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: notes never change places
        <p key={i} className="small">
          <On of={note} />
        </p>
      ))}
    </div>
  )
}

function Heads() {
  const { check } = usePaper()
  const words = useWords()
  const [, expression, values, result, rests] = words.working.columns
  return (
    <thead>
      <tr>
        <td />
        <td />
        <th>{expression}</th>
        <th>{values}</th>
        <th className="to-right">{result}</th>
        <th>{rests}</th>
        {check ? (
          <>
            <th>{words.paper.byHand}</th>
            <th>{words.paper.initials}</th>
          </>
        ) : null}
      </tr>
    </thead>
  )
}

function Row({
  row,
  before,
  judged,
  rests,
}: {
  readonly row: SetRow
  readonly before: string
  readonly judged?: ReactNode
  readonly rests?: ReactNode
}) {
  const { check } = usePaper()
  const boxes = check ? (
    <>
      <td className="to-fill" />
      <td className="to-fill" />
    </>
  ) : null
  return (
    <>
      <tr className={judged === undefined ? 'whole' : 'whole judgement'}>
        <td>{before}</td>
        <td>
          <On of={row.symbol} />
        </td>
        {row.long ? (
          <td colSpan={2}>
            <On of={row.expression} />
            {row.values === '' || row.many === true ? null : (
              <>
                <br />
                <On of={row.values} />
              </>
            )}
          </td>
        ) : (
          <>
            <td>
              <On of={row.expression} />
            </td>
            <td>
              <On of={row.values} />
            </td>
          </>
        )}
        <td className="to-right">
          <b>{judged ?? <On of={row.result} />}</b>
        </td>
        <td className="small">{rests ?? <On of={row.rests} />}</td>
        {boxes}
      </tr>
      {row.many === true ? (
        <tr>
          <td />
          <td colSpan={5} className="small">
            <On of={row.values} />
          </td>
          {boxes}
        </tr>
      ) : null}
    </>
  )
}

/** Bar of the demand against the stop of the limit, one scale. */
function Bar({ barFrac, stopFrac }: { readonly barFrac: number; readonly stopFrac: number }) {
  const x = (frac: number): number => BAR_MM * Math.min(1, frac)
  return (
    <svg viewBox={`0 0 ${BAR_MM + 1} 2.4`} style={{ width: mm(BAR_MM + 1), height: mm(2.4) }} aria-hidden="true">
      <path d={`M0 .45H${x(barFrac)}V1.95H0z`} />
      <path d={`M${x(stopFrac) - 0.35} 0h.7V2.4h-.7z`} stroke="#fff" strokeWidth={stopFrac < barFrac ? 0.3 : 0} />
    </svg>
  )
}

/** Derivations of one kind: lines once, then a row for each thing. */
export function Family({ block }: { readonly block: Extract<SetBlock, { readonly k: 'family' }> }) {
  const { check } = usePaper()
  const words = useWords()
  const inTheRow = <span className="small">{words.paper.inTheRow}</span>
  const boxes = check ? (
    <>
      <td className="to-fill" />
      <td className="to-fill" />
    </>
  ) : null
  return (
    <div className="paper-working">
      <Head title={block.title} note={block.note} verdict={null} />
      <table>
        <Widths of={check ? [...COLUMNS_MM, ...CHECK_MM] : COLUMNS_MM} />
        <Heads />
        <tbody>
          {block.lines.map((line, i) => (
            <tr
              // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
              key={i}
              className="whole"
            >
              <td>
                <b>{i + 1}</b>
              </td>
              <td>
                <On of={line.symbol} />
              </td>
              {line.long ? (
                <td colSpan={2}>
                  <On of={line.expression} />
                  {line.values === '' ? null : <br />}
                  <On of={line.values} />
                </td>
              ) : (
                <>
                  <td>
                    <On of={line.expression} />
                  </td>
                  <td>
                    <On of={line.values} />
                  </td>
                </>
              )}
              <td className="to-right">
                {line.result === null ? (
                  inTheRow
                ) : (
                  <b>
                    <On of={line.result} />
                  </b>
                )}
              </td>
              <td className="small">
                <On of={line.rests} />
              </td>
              {boxes}
            </tr>
          ))}
          {block.judgements.map((judged, i) => (
            <tr
              // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
              key={i}
              className="whole"
            >
              <td />
              <td>{words.paper.judged}</td>
              <td colSpan={2}>
                <On of={judged.expression} />
              </td>
              <td className="to-right">{inTheRow}</td>
              <td className="small">
                <On of={judged.rests} />
              </td>
              {boxes}
            </tr>
          ))}
        </tbody>
      </table>
      {block.tables.map((table, t) => (
        <table
          // biome-ignore lint/suspicious/noArrayIndexKey: tables never change places
          key={t}
          className="small"
        >
          <Widths of={check ? [...table.widths, ...CHECK_MM] : table.widths} />
          <thead>
            <tr>
              {table.heads.map((head, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <th key={i}>
                  <On of={head} />
                </th>
              ))}
              {check ? (
                <>
                  <th>{words.paper.byHand}</th>
                  <th>{words.paper.initials}</th>
                </>
              ) : null}
            </tr>
          </thead>
          <tbody>
            {table.rows.map((row, i) => (
              <tr
                // biome-ignore lint/suspicious/noArrayIndexKey: rows never change places
                key={i}
                className="whole"
              >
                {row.map((cell, j) => (
                  // biome-ignore lint/suspicious/noArrayIndexKey: cells never change places
                  <td key={j}>
                    <On of={cell} />
                  </td>
                ))}
                {boxes}
              </tr>
            ))}
          </tbody>
        </table>
      ))}
      {block.notes.map((note, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: notes never change places
        <p key={i} className="small">
          <On of={note} />
        </p>
      ))}
    </div>
  )
}
