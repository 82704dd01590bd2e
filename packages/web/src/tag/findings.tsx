import type { Finding } from '@plugstead/engine/kernel'
import { useState } from 'react'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'

/** Findings, worst first. What holds stands behind one line where something does not. */
export function Findings({ findings, route }: { readonly findings: readonly Finding[]; readonly route: JobRoute }) {
  const words = useWords()
  const [all, setAll] = useState(false)
  if (findings.length === 0) return <p className="quiet">{words.tag.nothingFound}</p>
  const open = findings.filter((f) => f.verdict !== 'holds')
  const holding = findings.length - open.length
  const few = open.length === 0 ? findings.slice(0, MOST_HOLDING) : open
  const shown = all ? findings : few
  return (
    <ul className="findings">
      {shown.map((finding) => (
        <Line key={`${finding.code} ${finding.subject}`} finding={finding} route={route} />
      ))}
      {all || shown.length === findings.length ? null : (
        <li>
          <button type="button" className="more" onClick={() => setAll(true)}>
            <span className="fold">{words.tag.holding(open.length === 0 ? holding - MOST_HOLDING : holding)}</span>
          </button>
        </li>
      )}
    </ul>
  )
}

const MOST_HOLDING = 4

function Line({ finding, route }: { readonly finding: Finding; readonly route: JobRoute }) {
  const words = useWords()
  const { units } = usePreferences()
  const { verdict, basis, workings } = finding
  const said = sentence(finding.said, units)
  const [working] = workings
  return (
    <li className={verdict}>
      <span className="verdict">
        <Mark of={verdict} /> {words.verdicts[verdict]}
      </span>
      <span className="said">
        {working === undefined ? (
          said
        ) : (
          <button type="button" data-working={working} onClick={() => goTo({ ...route, working })}>
            <span className="fold">{said}</span>
          </button>
        )}{' '}
        <small>
          {words.basis[basis]}
          {finding.confirm === true ? `, ${words.tag.confirm}` : ''}
        </small>
        {finding.decides === undefined ? null : (
          <small className="decides">
            <Mark of="others" /> {words.tag.decides(finding.decides)}
          </small>
        )}
        {finding.caution === undefined ? null : (
          <small className="caution">
            <b>{words.tag.caution}</b> {finding.caution}
          </small>
        )}
      </span>
    </li>
  )
}
