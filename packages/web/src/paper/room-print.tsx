import type { Finding, Verdict } from '@plugstead/engine/kernel'
import { useEffect, useMemo, useState } from 'react'
import { flushSync } from 'react-dom'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { useWords } from '../words/index.ts'
import { SetBlock } from './blocks.tsx'
import { OnPaper } from './on-paper.ts'

/** A working that rests on another names it: it stands on the same sheets, or in the book. */
const ON_A_ROOM = { check: false, page: { partOf: {}, contents: [] } }

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
  const workings = useAsked('derivations', findings.length === 0 ? null : { question: route.question })
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
        <OnPaper value={ON_A_ROOM}>
          <div className="flow">
            {(workings ?? []).map((block, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: blocks never change places
              <SetBlock key={i} block={block} />
            ))}
          </div>
        </OnPaper>
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
