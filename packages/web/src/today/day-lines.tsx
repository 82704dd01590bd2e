import { Mark } from '../marks/mark.tsx'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { type Line, linesOf, PARTS } from './lines.ts'
import type { DayNow } from './use-day.ts'

/** The ruled list: four parts, a line each: mark, job, what, by when, who. */
export function DayLines({ now, rang }: { readonly now: DayNow; readonly rang: (id: string) => void }) {
  const words = useWords()
  const { columns, parts, nothing } = words.today
  return (
    <table className="ruled">
      <caption className="spoken">{words.today.title}</caption>
      <thead>
        <tr>
          <th scope="col">
            <span className="spoken">{columns.mark}</span>
          </th>
          <th scope="col">{columns.job}</th>
          <th scope="col">{columns.what}</th>
          <th scope="col">{columns.by}</th>
          <th scope="col">{columns.who}</th>
          <td />
        </tr>
      </thead>
      {PARTS.map((part) => {
        const lines = linesOf(part, now, words)
        return (
          <tbody key={part} data-part={part}>
            <tr>
              <th colSpan={6} scope="rowgroup">
                <h2>{parts[part]}</h2>
              </th>
            </tr>
            {lines.length > 0 ? (
              lines.map((line) => <DayLine key={line.id} line={line} rang={rang} />)
            ) : now.state === 'read' ? (
              <tr>
                <td />
                <td colSpan={5} className="quiet">
                  {nothing[part]}
                </td>
              </tr>
            ) : null}
          </tbody>
        )
      })}
    </table>
  )
}

function DayLine({ line, rang }: { readonly line: Line; readonly rang: (id: string) => void }) {
  const words = useWords()
  return (
    <tr>
      <td className="of-mark">
        <Mark of={line.mark} />
        <span className="spoken">{line.mark === 'others' ? words.today.waits : words.verdicts[line.mark]}</span>
      </td>
      <td className="of-job">
        <button type="button" onClick={() => goTo(line.to)} aria-label={words.today.line(line.job, line.what)}>
          <span className="fold">{line.job}</span>
        </button>
        {line.invented ? <small>{words.header.invented}</small> : null}
      </td>
      <td className="of-what">{line.what}</td>
      <td className="of-day">{line.by}</td>
      <td className="of-who">{line.who}</td>
      <td className="of-act">
        {line.act === 'rang' ? (
          <>
            <button
              type="button"
              onClick={() => goTo({ page: 'paper', job: line.id, sheet: 'offer' })}
              aria-label={words.today.of(words.offer.title, line.job)}
            >
              <span className="fold">{words.offer.title}</span>
            </button>
            <button type="button" onClick={() => rang(line.id)} aria-label={words.today.of(words.today.rang, line.job)}>
              <span className="fold">{words.today.rang}</span>
            </button>
          </>
        ) : line.act === 'print' ? (
          <button
            type="button"
            onClick={() => goTo({ page: 'paper', job: line.id })}
            aria-label={words.today.of(words.today.print, line.job)}
          >
            <span className="fold">{words.today.print}</span>
          </button>
        ) : null}
      </td>
    </tr>
  )
}
