import type { RemedyAmounts, RemedyRow } from '@plugstead/engine/air'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shownTo } from '../hands/units.ts'
import { LETTER_PX } from '../rooms/use-width.ts'
import { Wide } from '../rooms/wide.tsx'
import { useWords } from '../words/index.ts'
import type { RemedyView } from '../worker/air/types.ts'
import { CountedWork } from './counted-work.tsx'
import { Picture } from './picture.tsx'
import { useRemedies } from './use-remedies.ts'

const LEAST_PX = 560

/** The table of remedies: asked for by a button, counted while it runs, kept as far as it came when it is stopped. */
export function WhatEachBuys({ box, widthPx }: { readonly box: string; readonly widthPx: number }) {
  const words = useWords()
  const { units } = usePreferences()
  const { now, run, stop } = useRemedies(box, { widthPx: Math.max(widthPx, LEAST_PX), letterPx: LETTER_PX, units })
  const said = words.air.remedies
  return (
    <section aria-labelledby="air-remedies">
      <h3 id="air-remedies">{said.title}</h3>
      <p className="small">{said.note}</p>
      {now.is === 'running' ? (
        <CountedWork
          {...{ doneCount: now.doneCount, ofCount: now.ofCount, stopping: now.stopping, stop }}
          {...{ stopWord: said.stop, note: said.workNote }}
          said={now.stopping ? said.stopping : now.ofCount === 0 ? said.begin : said.work(now.doneCount, now.ofCount)}
        />
      ) : (
        <button type="button" className="plate" onClick={run}>
          {now.is === 'done' ? said.again : said.run}
        </button>
      )}
      {now.is === 'lacks' ? (
        <p role="status">
          {said.lacks} {now.lacks.map((one) => sentence(one, units)).join(' ')}
        </p>
      ) : null}
      {now.is === 'done' ? (
        <>
          {now.doneCount < now.ofCount ? (
            <p role="status">{now.view === null ? said.none : said.stopped(now.doneCount, now.ofCount)}</p>
          ) : null}
          {now.view === null ? null : <Bought view={now.view} />}
        </>
      ) : null}
    </section>
  )
}

function Bought({ view }: { readonly view: RemedyView }) {
  const words = useWords()
  const { units } = usePreferences()
  const said = words.air.remedies
  const { table, drawing } = view
  return (
    <>
      <Picture view={drawing} wide={said.title} />
      <h4>{said.alone(view.aloneCount)}</h4>
      <Rows
        view={view}
        rows={table.alone}
        first={{ name: table.base.name, after: table.base.after }}
        name={said.alone(view.aloneCount)}
      />
      {table.stacked.length === 0 ? null : (
        <>
          <h4>{said.stacked(view.stackedCount)}</h4>
          <Rows
            view={view}
            rows={table.stacked}
            last={view.hasDesign ? { name: table.design.name, after: table.design.after } : null}
            name={said.stacked(view.stackedCount)}
          />
        </>
      )}
      {view.hasDesign ? (
        <p>{said.design(sentence(table.design.name, units), table.design.heldYearsCount, view.stackedCount)}</p>
      ) : null}
      <p className="small">{said.caution}</p>
    </>
  )
}

interface Plain {
  readonly name: string
  readonly after: RemedyAmounts
}

function Rows({
  view,
  rows,
  first = null,
  last = null,
  name,
}: {
  readonly view: RemedyView
  readonly rows: readonly RemedyRow[]
  readonly first?: Plain | null
  readonly last?: Plain | null
  readonly name: string
}) {
  const words = useWords()
  const { units } = usePreferences()
  const said = words.air.remedies
  const number = (value: number, unit: string): string => shownTo(unit === 'l' && value < 100 ? 1 : 0, value, unit, units)
  const cells = (a: RemedyAmounts): readonly string[] => [
    ...[a.wrongH, a.hotH, a.wetH].map((h) => number(h, 'h')),
    number(a.mostGPerM2, 'g/m²'),
    ...[a.fellL, a.onGearL].map((l) => number(l, 'l')),
    number(a.heaterKWh + a.fanKWh, 'kWh'),
  ]
  const all = [
    ...(first === null ? [] : [{ ...first, money: '–', note: null }]),
    ...rows.map((row) => ({
      ...row,
      money: row.money === null ? said.noMoney : number(row.money, view.table.currency),
    })),
    ...(last === null ? [] : [{ ...last, money: '–', note: null }]),
  ]
  return (
    <Wide name={name}>
      <table>
        <thead>
          <tr>
            {said.columns.map((title, i) => (
              <th key={title} scope="col" className={i === 0 ? undefined : 'right'}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {all.map(({ name: measure, after, money, note }) => (
            <tr key={measure}>
              <td>
                {sentence(measure, units)}
                {note === null ? null : <small className="air-short">{sentence(note, units)}</small>}
              </td>
              {cells(after).map((cell, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <td key={i} className="right">
                  {cell}
                </td>
              ))}
              <td className="right">{money}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}
