import { QUESTIONS, type QuestionId, type Verdict, worst } from '@plugstead/engine/kernel'
import { useState } from 'react'
import { useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { Mark } from '../marks/mark.tsx'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { Ticks } from './ticks.tsx'

const GROUPS = [
  ['ask', QUESTIONS.slice(0, 5)],
  ['power', QUESTIONS.slice(5, 8)],
  ['box', QUESTIONS.slice(8, 12)],
  ['work', QUESTIONS.slice(12, 14)],
  ['life', QUESTIONS.slice(14)],
] as const

interface Cell {
  readonly id: QuestionId
  readonly verdict: Verdict | 'not built' | null
  readonly decides: boolean
  readonly house: boolean
  readonly moved: boolean
  /** Its answer is of an earlier text. */
  readonly old: boolean
  readonly here: boolean
}

/** The sixteen questions, always there: verdict by question. `here`: the question whose room is open. */
export function Rule({ here }: { readonly here: QuestionId | null }) {
  const { now } = useJob()
  const anatomy = useAnatomy()
  const words = useWords()
  const cells = QUESTIONS.map((id, i): Cell => {
    const answered = now.answer?.questions[i]
    const failing = now.answer?.findings.filter((f) => f.question === id && f.verdict === 'fails') ?? []
    return {
      id,
      verdict: answered?.verdict ?? null,
      decides: answered?.decides ?? false,
      house: failing.length > 0 && failing.every((f) => f.basis === 'house'),
      moved: now.moved.some((m) => m.id === id),
      old: now.stale && !now.fresh.includes(id),
      here: id === here,
    }
  })
  const of = (ids: readonly QuestionId[]): readonly Cell[] => cells.filter((cell) => ids.includes(cell.id))
  return (
    <nav className={`rule${now.stale && now.fresh.length === 0 ? ' stale' : ''}`} aria-label={words.rule.label}>
      {anatomy === 'tablet' ? (
        <Grouped of={of} here={here} />
      ) : (
        GROUPS.map(([name, ids]) => (
          <section key={name} style={{ flexGrow: ids.length }}>
            <h2>{words.groups[name]}</h2>
            <Cells cells={of(ids)} />
          </section>
        ))
      )}
      <Ticks />
    </nav>
  )
}

function Cells({ cells }: { readonly cells: readonly Cell[] }) {
  return (
    <ol>
      {cells.map((cell) => (
        <Question key={cell.id} cell={cell} />
      ))}
    </ol>
  )
}

function Question({ cell }: { readonly cell: Cell }) {
  const { now } = useJob()
  const words = useWords()
  const { id, verdict } = cell
  const name = words.questions[id]
  const marked = verdict !== null && verdict !== 'not built'
  const classes = [
    marked ? verdict : 'unbuilt',
    cell.house ? 'house' : '',
    cell.here ? 'here' : '',
    cell.moved ? 'moved' : '',
    cell.old ? 'old' : '',
  ]
  return (
    <li className={classes.join(' ')}>
      <button
        type="button"
        data-question={id}
        aria-current={cell.here ? 'page' : undefined}
        aria-label={verdict === null ? name : words.rule.cell(name, words.verdicts[verdict], cell.decides)}
        onClick={() => goTo({ page: 'room', job: now.id, question: id })}
        onKeyDown={alongTheRule}
      >
        <b>
          {name}
          {cell.decides ? <Mark of="others" /> : null}
        </b>
        <span>
          {marked ? <Mark of={verdict} /> : null} {verdict === null ? '' : words.verdicts[verdict]}
        </span>
      </button>
    </li>
  )
}

/** Five groups, worst verdict and count each; a group unfolds its questions under it. */
function Grouped({
  of,
  here,
}: {
  readonly of: (ids: readonly QuestionId[]) => readonly Cell[]
  readonly here: QuestionId | null
}) {
  const words = useWords()
  const [chosen, setOpen] = useState<string | null>(null)
  const open =
    chosen ?? (here === null ? null : (GROUPS.find(([, ids]) => (ids as readonly QuestionId[]).includes(here))?.[0] ?? null))
  return (
    <>
      {GROUPS.map(([name, ids]) => {
        const cells = of(ids)
        const verdicts = cells.flatMap(({ verdict }) => (verdict === null || verdict === 'not built' ? [] : [verdict]))
        const all = verdicts.length === 0 ? null : worst(verdicts)
        const count = verdicts.filter((v) => v === all).length
        const said = all === null ? words.verdicts['not built'] : words.verdicts[all]
        return (
          <section key={name} className={`group ${all ?? 'unbuilt'}${open === name ? ' open' : ''}`}>
            <button
              type="button"
              aria-expanded={open === name}
              aria-label={words.rule.group(words.groups[name], said, count)}
              onClick={() => setOpen(open === name ? '' : name)}
              onKeyDown={alongTheRule}
            >
              <b>{words.groups[name]}</b>
              <span>
                {all === null ? null : <Mark of={all} />} {said}
                {count > 1 ? ` ${count}` : ''}
              </span>
            </button>
          </section>
        )
      })}
      {GROUPS.map(([name, ids]) =>
        open === name ? (
          <div key={name} className="unfolded">
            <Cells cells={of(ids)} />
          </div>
        ) : null,
      )}
    </>
  )
}

/** Left and right, over the edges of the groups. */
function alongTheRule(event: React.KeyboardEvent<HTMLButtonElement>): void {
  const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0
  if (step === 0) return
  event.preventDefault()
  const all = [...(event.currentTarget.closest('nav')?.querySelectorAll('button') ?? [])]
  all[all.indexOf(event.currentTarget) + step]?.focus()
}
