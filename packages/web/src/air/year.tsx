import type { MapQuantity } from '@plugstead/drawings'
import { usePreferences } from '../hands/preferences.ts'
import { shownTo } from '../hands/units.ts'
import { Wide } from '../rooms/wide.tsx'
import { useWords } from '../words/index.ts'
import type { AirHourView, AirMapView, AirRoomView } from '../worker/air/types.ts'
import { DAY_H, dayOf, dayStartH, WEEK_H } from './clock.ts'
import { Picture } from './picture.tsx'

/** The map of a year; a week of it is chosen by touch or keys, and brushed. */
export function YearMap({
  map,
  room,
  week,
  shownDays,
  choose,
}: {
  readonly map: AirMapView
  readonly room: AirRoomView
  /** First hour of the chosen week; null: a short run is shown. */
  readonly week: number | null
  readonly shownDays: AirHourView | null
  readonly choose: (fromH: number) => void
}) {
  const words = useWords()
  const { plot, drawing } = map
  const { firstHour, hoursCount } = room
  const last = Math.max(0, hoursCount - WEEK_H)
  const day = week === null ? 0 : dayOf(firstHour, week)
  const to = (next: number): void => choose(Math.max(0, Math.min(last, dayStartH(firstHour, next))))
  const onKeyDown = (event: React.KeyboardEvent): void => {
    const step = event.shiftKey ? 1 : 7
    const by: Readonly<Record<string, number>> = {
      ...{ ArrowLeft: -step, ArrowDown: -step, ArrowRight: step, ArrowUp: step, PageDown: -28, PageUp: 28 },
      ...{ Home: -plot.daysCount, End: plot.daysCount },
    }
    const moved = by[event.key]
    if (moved === undefined) return
    event.preventDefault()
    to(Math.max(0, Math.min(plot.daysCount, day + moved)))
  }
  const at = (event: React.MouseEvent<HTMLElement>): void => {
    const box = event.currentTarget.getBoundingClientRect()
    to(Math.floor((event.clientX - box.left) / plot.dayPx) - 3)
  }
  const heightPx = plot.hourPx * DAY_H
  const daysShown = Math.min(WEEK_H, hoursCount) / DAY_H
  const left = plot.left + day * plot.dayPx
  return (
    <Picture
      view={drawing}
      over={
        <div
          role="slider"
          tabIndex={0}
          className="air-plot"
          aria-label={words.air.weekLabel}
          aria-valuemin={1}
          aria-valuemax={Math.max(1, Math.ceil(plot.daysCount / 7))}
          aria-valuenow={Math.floor(day / 7) + 1}
          aria-valuetext={shownDays === null ? undefined : words.air.weekSaid(shownDays.title, shownDays.sum)}
          style={{ left: plot.left, top: plot.top, width: plot.dayPx * plot.daysCount, height: heightPx }}
          onKeyDown={onKeyDown}
          onClick={at}
          onPointerDown={(event) => {
            // A finger moves the sheet: it chooses by a tap. A mouse chooses as it is drawn along.
            if (event.pointerType === 'mouse') event.currentTarget.setPointerCapture(event.pointerId)
          }}
          onPointerMove={(event) => {
            if (event.currentTarget.hasPointerCapture(event.pointerId)) at(event)
          }}
        />
      }
    >
      {week === null ? null : (
        <g className="air-brush">
          <rect x={left} y={plot.top - 7} width={daysShown * plot.dayPx} height={heightPx + 7} />
          <path
            d={`M${left} ${plot.top - 7}v${heightPx + 14}M${left + daysShown * plot.dayPx} ${plot.top - 7}v${heightPx + 14}`}
          />
        </g>
      )}
    </Picture>
  )
}

/** What the ink of the map shows. */
export function Ink({ now, take }: { readonly now: MapQuantity; readonly take: (quantity: MapQuantity) => void }) {
  const words = useWords()
  return (
    <label className="air-choice">
      <span>{words.air.ink}</span>
      <select value={now} onChange={(event) => take(event.target.value as MapQuantity)}>
        {Object.entries(words.air.quantities).map(([quantity, said]) => (
          <option key={quantity} value={quantity}>
            {said}
          </option>
        ))}
      </select>
    </label>
  )
}

/** The map in words: month by month. */
export function Months({ room, go }: { readonly room: AirRoomView; readonly go: (month: number) => void }) {
  const words = useWords()
  const { units } = usePreferences()
  const number = (value: number, unit: string, decimals = 0): string => shownTo(decimals, value, unit, units)
  return (
    <Wide name={words.air.months}>
      <table>
        <thead>
          <tr>
            {words.air.monthColumns.map((title, i) => (
              <th key={title} scope="col" className={i === 0 ? undefined : 'right'}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {room.months.map((m) => (
            <tr key={m.month}>
              <td>
                <button type="button" className="names" onClick={() => go(m.month)}>
                  {words.air.monthNames[m.month]}
                </button>
              </td>
              {[
                ...[m.outsideMeanC, m.airMeanC, m.airLeastC, m.airMostC].map((c) => number(c, '°C', 1)),
                number(m.relativeMeanPct, '%'),
                ...[m.roofFrostH, m.roofWetH].map((h) => number(h, 'h')),
                number(m.roofMostGPerM2, 'g/m²'),
                number(m.fellKg, 'l', 1),
                ...[m.heaterKWh, m.fanKWh].map((e) => number(e, 'kWh')),
              ].map((said, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <td key={i} className="right">
                  {said}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}
