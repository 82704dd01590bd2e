import type { WorkingBlock, WorkingRow } from '@plugstead/book/working'
import type { Finding, Verdict } from '@plugstead/engine/kernel'
import { useEffect, useMemo, useState } from 'react'
import { flushSync } from 'react-dom'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { Inline } from '../marks/inline.tsx'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { useWords } from '../words/index.ts'

const RANK: Readonly<Record<Verdict, number>> = { fails: 0, unknown: 1, tight: 2, holds: 3 }

/**
 * What the browser's own print of a room has below the picture: every finding, every working, and on each sheet the caution strip. It stands in
 * the page only while it is printed.
 */
export function RoomPrint({ route }: { readonly route: Extract<JobRoute, { page: 'room' }> }) {
  const { now } = useJob()
  const words = useWords()
  const [printing, setPrinting] = useState(false)
  const findings = useMemo(
    () =>
      (now.answer?.findings ?? [])
        .filter((f) => f.question === route.question)
        .toSorted((a, b) => RANK[a.verdict] - RANK[b.verdict]),
    [now.answer, route.question],
  )
  const ids = useMemo(() => [...new Set(findings.flatMap((f) => f.workings))], [findings])
  const workings = useAsked('working', ids.length === 0 ? null : { ids })
  useEffect(() => {
    const before = () => flushSync(() => setPrinting(true))
    const after = () => setPrinting(false)
    window.addEventListener('beforeprint', before)
    window.addEventListener('afterprint', after)
    return () => {
      window.removeEventListener('beforeprint', before)
      window.removeEventListener('afterprint', after)
    }
  }, [])
  if (!printing) return null
  const cautions = [...new Set(findings.flatMap((f) => (f.caution === undefined ? [] : [f.caution])))]
  return (
    <>
      <section className="room-print">
        {cautions.map((caution) => (
          <p key={caution} className="print-strip">
            {caution}
          </p>
        ))}
        <h3>{words.paper.roomFindings}</h3>
        <Findings of={findings} />
        {(workings ?? []).length === 0 ? null : <h3>{words.paper.roomWorkings}</h3>}
        {(workings ?? []).map((block) => (
          <Derivation key={block.ids.join(' ')} block={block} />
        ))}
      </section>
      <footer className="print-foot">
        <p className="print-sign">
          <span>{words.paper.checkedBy}</span>
          <span>{words.paper.license}</span>
          <span>{words.paper.date}</span>
        </p>
        <p className="print-caution">{words.paper.caution}</p>
        <p className="print-tag">
          {now.answer?.title} · {words.questions[route.question]} · {now.file}
        </p>
      </footer>
    </>
  )
}

function Findings({ of }: { readonly of: readonly Finding[] }) {
  const words = useWords()
  return (
    <table>
      <tbody>
        {of.map((f) => (
          <tr key={`${f.code} ${f.subject} ${f.said}`}>
            <td>
              <Mark of={f.verdict} /> {words.verdicts[f.verdict]}
            </td>
            <td>{f.subject}</td>
            <td>
              {f.said}
              {f.decides === undefined ? '' : ` (${words.tag.decides(f.decides)})`}
              {f.confirm === true ? ` (${words.tag.confirm})` : ''}
            </td>
            <td>{words.basis[f.basis]}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Derivation({ block }: { readonly block: WorkingBlock }) {
  const words = useWords()
  const rows: readonly WorkingRow[] = [...block.rows, ...block.crossCheck, ...(block.judgement === null ? [] : [block.judgement])]
  return (
    <table className="derived">
      <caption>
        <Inline of={block.title} /> {block.verdict === null ? null : <Mark of={block.verdict} />}{' '}
        {block.verdict === null ? '' : words.verdicts[block.verdict]}
      </caption>
      <thead>
        <tr>
          {words.working.columns.map((column) => (
            <th key={column}>{column}</th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: lines never change places
          <tr key={i}>
            {[row.symbol, row.expression, row.values, row.result, row.rests].map((cell, j) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
              <td key={j}>
                <Inline of={cell} />
              </td>
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  )
}
