import type { Side } from '@plugstead/engine/job'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shown, shownTo } from '../hands/units.ts'
import { Wide } from '../rooms/wide.tsx'
import { useWords } from '../words/index.ts'
import type { AirRoomView, ShortView } from '../worker/air/types.ts'
import { waterSaid } from './said.ts'

const SHORT = { digits: 4, shortest: true } as const

/** Every fall of water: when, from where, how much, and on what it lands. */
export function Drips({ room, go }: { readonly room: AirRoomView; readonly go: (atH: number) => void }) {
  const words = useWords()
  const { units } = usePreferences()
  const water = (kg: number): string => waterSaid(kg, units)
  const all = room.counts[room.end].dripEventsCount
  if (room.drips.length === 0) return <p className="quiet">{words.air.noDrips}</p>
  return (
    <>
      {all > room.drips.length ? <p className="small">{words.air.dripMore(all)}</p> : null}
      <Wide name={words.air.drips}>
        <table>
          <thead>
            <tr>
              {words.air.dripColumns.map((title) => (
                <th key={title} scope="col">
                  {title}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {room.drips.map((d) => (
              <tr key={`${d.atH} ${d.side}`}>
                <td>
                  <button type="button" className="names" onClick={() => go(d.atH)}>
                    {d.when}
                  </button>
                </td>
                <td>
                  {words.sides[d.side as Side]}
                  {d.fromFrost ? `, ${words.air.dripFrost}` : ''}
                </td>
                <td className="right">{water(d.fellKg)}</td>
                <td className="right">{shown(d.hoursCount, 'h', units)}</td>
                <td className="right">{shown(Math.round(d.hungGPerM2), 'g/m²', units, SHORT)}</td>
                <td>
                  {[...d.on]
                    .filter((o) => o.landsKg >= 0.0005)
                    .toSorted((a, b) => b.landsKg - a.landsKg)
                    .map((o) => words.air.dripOn(o.id, water(o.landsKg), o.hooded))
                    .join('; ') || words.air.dripFloor}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </>
  )
}

/** The runs of days that try the limits. */
export function Shorts({ room, show }: { readonly room: AirRoomView; readonly show: (run: ShortView['run']) => void }) {
  const words = useWords()
  const { units } = usePreferences()
  if (room.shorts.length === 0) return <p className="quiet">{words.air.noShorts}</p>
  return (
    <>
      <p className="small">{words.air.shortsNote}</p>
      <Wide name={words.air.shorts}>
        <table>
          <thead>
            <tr>
              {words.air.shortColumns.map((title, i) =>
                title === '' ? (
                  <td key={title} />
                ) : (
                  <th key={title} scope="col" className={i === 0 ? undefined : 'right'}>
                    {title}
                  </th>
                ),
              )}
            </tr>
          </thead>
          <tbody>
            {room.shorts.map(({ run, said, counts }) => (
              <tr key={run}>
                <td>
                  <b>{words.air.shortWords[run]}</b>
                  <small className="air-short">{sentence(said, units)}</small>
                </td>
                <td className="right">
                  {[counts.airLeastC, counts.airMostC].map((c) => shownTo(1, c, '°C', units)).join('\u2009…\u2009')}
                </td>
                <td className="right">
                  {shown(Math.round(counts.faces.find((f) => f.side === 'roof')?.mostGPerM2 ?? 0), 'g/m²', units, SHORT)}
                </td>
                <td className="right">{waterSaid(counts.fellKg, units)}</td>
                <td className="right">{waterSaid(counts.fellOnGearKg, units)}</td>
                <td className="right">{shown(counts.gearDewH, 'h', units)}</td>
                <td>
                  <button
                    type="button"
                    className="how"
                    aria-label={words.air.showRun(words.air.shortWords[run])}
                    onClick={() => show(run)}
                  >
                    <span className="fold">{words.air.show}</span>
                  </button>
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </Wide>
    </>
  )
}
