import type { Finding } from '@plugstead/engine/kernel'
import { useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import type { JobRoute } from '../route.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { Mends, TrialStrip } from './mends.tsx'

/** Findings, worst first. What holds stands behind one line where something does not; of very many that do not, the first ones. */
export function Findings({ findings, route }: { readonly findings: readonly Finding[]; readonly route: JobRoute }) {
  const { now } = useJob()
  const words = useWords()
  const [shown, setShown] = useState<'few' | 'open' | 'all'>('few')
  const { trial } = now
  if (findings.length === 0) return trial === null ? <p className="quiet">{words.tag.nothingFound}</p> : <TrialStrip />
  const open = findings.filter((f) => f.verdict !== 'holds')
  const list =
    shown === 'all'
      ? findings
      : open.length === 0
        ? findings.slice(0, MOST_HOLDING)
        : shown === 'open'
          ? open
          : open.slice(0, MOST_OPEN)
  const more = shown === 'few' ? open.length - Math.min(open.length, MOST_OPEN) : 0
  const holding = shown === 'all' ? 0 : findings.length - (open.length === 0 ? list.length : open.length)
  // Mended, it may hold now and stand behind a line: its strip stays in sight.
  const gone = trial !== null && !list.some((f) => f.code === trial.of.code && f.subject === trial.of.subject)
  return (
    <>
      {gone ? <TrialStrip /> : null}
      <ul className="findings">
        {list.map((finding, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two findings may say the same of one thing
          <Line key={`${finding.code} ${finding.subject} ${i}`} finding={finding} route={route} />
        ))}
        {more === 0 ? null : (
          <li>
            <button type="button" className="more" onClick={() => setShown('open')}>
              <span className="fold">{words.tag.more(more)}</span>
            </button>
          </li>
        )}
        {holding === 0 ? null : (
          <li>
            <button type="button" className="more" onClick={() => setShown('all')}>
              <span className="fold">{words.tag.holding(holding)}</span>
            </button>
          </li>
        )}
      </ul>
    </>
  )
}

const MOST_HOLDING = 4
const MOST_OPEN = 12

function Line({ finding, route }: { readonly finding: Finding; readonly route: JobRoute }) {
  const words = useWords()
  const { units } = usePreferences()
  const { verdict, basis, workings } = finding
  const said = sentence(finding.said, units)
  const [working] = workings
  return (
    <li className={basis === 'house' ? `${verdict} house` : verdict}>
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
      <Mends finding={finding} />
    </li>
  )
}
