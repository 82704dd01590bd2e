import type { QuestionId, Verdict } from '@plugstead/engine/kernel'
import { formatNumber, THIN, worst } from '@plugstead/engine/kernel'
import { useState } from 'react'
import { Problems } from '../frame/strips.tsx'
import { useAnatomy } from '../hands/anatomy.ts'
import { Mark } from '../marks/mark.tsx'
import { Money } from '../marks/money.tsx'
import type { Words } from '../words/en.ts'
import { useWords } from '../words/index.ts'
import type { BudgetAnswer, JobAnswer, RankedLine } from '../worker/protocol.ts'
import type { CallNow } from './use-call.ts'

/** What the desk can say while it is still talking. On a phone it is a strip at the foot that unfolds. */
export function CallTag({ now, offer }: { readonly now: CallNow; readonly offer: () => void }) {
  const words = useWords()
  const phone = useAnatomy() === 'phone'
  const [open, setOpen] = useState(false)
  if (!phone)
    return (
      <section className="tag call-tag" aria-label={words.tag.of(words.call.title)} tabIndex={-1}>
        <div className="manila">
          <h2>{words.call.tag}</h2>
          <Said now={now} offer={offer} />
        </div>
      </section>
    )
  return (
    <section className={`tag call-tag ${open ? 'open' : 'strip-foot'}`} aria-label={words.tag.of(words.call.title)}>
      <div className="manila">
        <button type="button" className="short" aria-expanded={open} onClick={() => setOpen(!open)}>
          {open ? <span className="fold">{words.call.foldTag}</span> : <Short now={now} />}
        </button>
        {open ? (
          <>
            <h2>{words.call.tag}</h2>
            <Said now={now} offer={offer} />
          </>
        ) : null}
      </div>
    </section>
  )
}

/** The same in two lines. */
function Short({ now }: { readonly now: CallNow }) {
  const words = useWords()
  const { plan, first, work } = now
  if (plan === null)
    return <span className="fold">{work === null ? words.call.tag : words.call.planning(work.begunCount, work.knownCount)}</span>
  return (
    <span className={now.stale.plan ? 'stale' : ''}>
      <span className="fold said">
        <Mark of={verdictOf(plan)} /> {plan.head.sound ? words.call.sound : words.verdicts.fails}
      </span>
      {first?.budget == null ? null : (
        <span className="said">
          {' '}
          <Money of={first.budget} />
        </span>
      )}
      {first?.ringBack == null ? null : (
        <small>
          {' '}
          {words.call.ringBack} {words.day(first.ringBack.day)}
        </small>
      )}
    </span>
  )
}

function Said({ now, offer }: { readonly now: CallNow; readonly offer: () => void }) {
  const words = useWords()
  const { plan, first, ranked, stale, work } = now
  const toldCount = Object.values(now.answers).filter((text) => text.trim() !== '').length
  if (now.fault !== null) return <p role="alert">{words.call.fault(now.fault)}</p>
  if (now.planProblems.length > 0) return <Problems problems={now.planProblems} />
  if (plan === null && work === null) return <p>{words.call.empty}</p>
  return (
    <>
      <p className="at" role="status">
        {work === null
          ? stale.plan
            ? words.call.stale
            : words.call.answered(toldCount)
          : words.call.planning(work.begunCount, work.knownCount)}
      </p>
      <div className={stale.ranked ? 'stale' : ''}>
        <h3>{words.call.fits}</h3>
        {ranked === null ? <p className="quiet">{words.call.ranking}</p> : <Fits ranked={ranked} />}
      </div>
      {plan === null ? null : (
        <div className={stale.plan ? 'stale' : ''}>
          <h3>{words.call.plan}</h3>
          <p className="said">
            <Mark of={verdictOf(plan)} /> <b>{words.verdicts[verdictOf(plan)]}.</b>{' '}
            {plan.head.sound ? words.call.sound : words.call.unsound} {plan.head.chosen}
          </p>
          <Verdicts questions={plan.questions} />
          <h3>{words.call.budget}</h3>
          {first?.budget == null ? (
            <p>{words.call.noBudget}</p>
          ) : (
            <>
              <p className="said price">
                <Money of={first.budget} />
              </p>
              <p>
                <small>{budgetWords(first.budget, words)}</small>
              </p>
            </>
          )}
          <h3>{words.call.ringBack}</h3>
          {first?.ringBack == null ? (
            <p>{words.call.noRingBack}</p>
          ) : (
            <p className="said">
              <b>{words.day(first.ringBack.day)}</b>{' '}
              <small>{words.call.waitsFor(first.ringBack.waitsFor, first.ringBack.who)}</small>
            </p>
          )}
          {first?.live == null ? null : (
            <p>
              <small>{words.call.live(words.day(first.live))}</small>
            </p>
          )}
          <p className="to-offer">
            <button type="button" className="plate" onClick={offer}>
              {words.offer.fromCall}
            </button>{' '}
            <small>{words.offer.fromCallNote}</small>
          </p>
          <p className="decides">
            <Mark of="others" /> <small>{words.call.decides}</small>
          </p>
        </div>
      )}
    </>
  )
}

/** Of the whole: what nobody knows outranks what holds. */
const verdictOf = ({ questions }: JobAnswer): Verdict =>
  worst(questions.flatMap(({ verdict }) => (verdict === 'not built' ? [] : [verdict])))

const percent = (frac: number): string => `${formatNumber(frac * 100, { shortest: true })}${THIN}%`

/** What it is, and what is in it and what is not. */
function budgetWords({ marginFrac, tax, groups, lacking }: BudgetAnswer, words: Words): string {
  const money = (n: number): string => formatNumber(Math.round(n), { grouping: ',' })
  return [
    marginFrac === null ? words.call.costOnly : words.call.priced(percent(marginFrac)),
    ...(tax === null ? [] : [words.call.tax(tax.name, percent(tax.frac))]),
    words.call.costs(words.listed(groups.map(({ group, money: of }) => `${group}${THIN}${money(of)}`))),
    ...(lacking.length === 0 ? [] : [words.call.lacking(words.listed(lacking))]),
  ].join(' ')
}

const ORDER: readonly Verdict[] = ['fails', 'unknown', 'tight', 'holds']

/** Verdicts by question, worst first, one line a verdict. */
function Verdicts({
  questions,
}: {
  readonly questions: readonly { readonly id: QuestionId; readonly verdict: Verdict | 'not built' }[]
}) {
  const words = useWords()
  return (
    <ul className="verdicts">
      {ORDER.flatMap((verdict) => {
        const of = questions.filter((q) => q.verdict === verdict)
        return of.length === 0
          ? []
          : [
              <li key={verdict} className="said">
                <Mark of={verdict} /> <b>{words.verdicts[verdict]}</b> {words.listed(of.map((q) => words.questions[q.id]))}
              </li>,
            ]
      })}
    </ul>
  )
}

/** Best first; what does not do stands behind one line. */
function Fits({ ranked }: { readonly ranked: readonly RankedLine[] }) {
  const words = useWords()
  const [all, setAll] = useState(false)
  const doing = ranked.filter((row) => row.does !== 'not')
  const not = ranked.length - doing.length
  return (
    <ol className="fits">
      {(all ? ranked : doing).map((row) => (
        <li key={`${row.kind} ${row.id}`} className="said" data-ranked={row.id}>
          <b>
            <Mark of={row.verdict} /> <span className="spoken">{words.verdicts[row.verdict]}: </span>
            {row.kind === 'new plan' ? row.name : row.revision === null ? row.id : `${row.id} ${row.revision}`}
          </b>{' '}
          {words.call.kinds[row.kind]}, {words.call.does[row.does]}
          <br />
          <Money of={row.span} />{' '}
          <small>
            · {words.call.is[row.price.is]} ·{' '}
            {row.earliest === null ? words.call.dayUnknown : words.call.from(words.day(row.earliest))}
          </small>
          {row.whyNotBetter === '' ? null : <small className="why">{row.whyNotBetter}</small>}
        </li>
      ))}
      {all || not === 0 ? null : (
        <li>
          <button type="button" className="more" onClick={() => setAll(true)}>
            <span className="fold">{words.call.not(not)}</span>
          </button>
        </li>
      )}
    </ol>
  )
}
