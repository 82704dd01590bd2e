import type { AirCounts, AirEnd } from '@plugstead/engine/air'
import { usePreferences } from '../hands/preferences.ts'
import { joined, shownTo } from '../hands/units.ts'
import { Wide } from '../rooms/wide.tsx'
import { useWords } from '../words/index.ts'

type Ends = Readonly<Record<AirEnd, AirCounts>>
type Figure = keyof ReturnType<typeof useWords>['air']['figures']

const roof = (counts: AirCounts) => counts.faces.find((f) => f.side === 'roof')
const FIGURES: readonly (readonly [Figure, string, (counts: AirCounts) => number])[] = [
  ['airMost', '°C', (c) => c.airMostC],
  ['airLeast', '°C', (c) => c.airLeastC],
  ['frost', 'h', (c) => roof(c)?.frostH ?? 0],
  ['wet', 'h', (c) => roof(c)?.wetH ?? 0],
  ['most', 'g/m²', (c) => roof(c)?.mostGPerM2 ?? 0],
  ['fell', 'l', (c) => c.fellKg],
  ['onGear', 'l', (c) => c.fellOnGearKg],
  ['dew', 'h', (c) => c.gearDewH],
  ['damp', '%', (c) => c.relativeDayMeanPct],
  ['heater', 'kWh', (c) => c.heaterKWh],
  ['fan', 'kWh', (c) => c.fanKWh],
]

/** What a year comes to, from one end of what nobody measured to the other; with something changed, both beside each other. */
export function Figures({ now, tried, name }: { readonly now: Ends; readonly tried?: Ends; readonly name: string }) {
  const words = useWords()
  const { units } = usePreferences()
  const said = (ends: Ends, unit: string, of: (counts: AirCounts) => number): string => {
    const [low, high] = [of(ends.tight), of(ends.leaky)]
      .toSorted((a, b) => a - b)
      .map((value) => shownTo(unit === 'l' || unit === '°C' ? 1 : 0, value, unit, units)) as [string, string]
    return low === high ? low : joined(low, high)
  }
  return (
    <Wide name={name}>
      <table className="air-figures">
        <thead>
          <tr>
            <th scope="col">{words.air.figure}</th>
            <th scope="col" className="right">
              {words.air.planned}
            </th>
            {tried === undefined ? null : (
              <th scope="col" className="right">
                {words.air.tried}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {FIGURES.map(([figure, unit, of]) => {
            const [was, is] = [said(now, unit, of), tried === undefined ? null : said(tried, unit, of)]
            return (
              <tr key={figure}>
                <th scope="row">{words.air.figures[figure]}</th>
                <td className="right">{was}</td>
                {is === null ? null : <td className="right">{is === was ? is : <span className="air-new">{is}</span>}</td>}
              </tr>
            )
          })}
        </tbody>
      </table>
    </Wide>
  )
}
