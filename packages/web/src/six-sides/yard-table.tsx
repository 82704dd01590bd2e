import { usePreferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import { useWords } from '../words/index.ts'
import type { MachineLine } from '../worker/protocol.ts'

/** The yard's facts as a table. A name chooses its machine. */
export function YardTable({
  machines,
  choose,
}: {
  readonly machines: readonly MachineLine[]
  readonly choose: (id: string) => void
}) {
  const words = useWords()
  const { units } = usePreferences()
  const [name, what, cord, bearing, volts, verdict] = words.yard.columns
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table that slides must be reached by keys
    <section className="yard-table" tabIndex={0} aria-label={words.yard.table}>
      <table>
        <thead>
          <tr>
            {[name, what, cord, bearing, volts, verdict].map((head) => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {machines.map((m) => (
            <tr key={m.id}>
              <th scope="row">
                <button type="button" onClick={() => choose(m.id)}>
                  <span className="fold">{m.id}</span>
                </button>
              </th>
              <td>{m.what}</td>
              <td>
                {Object.values(m.lengthM)
                  .map((length) => shown(length, 'm', units))
                  .join(', ')}
              </td>
              <td>{m.bearingDeg === null ? words.yard.spread : `${m.bearingDeg}°`}</td>
              <td>{m.voltageV === null ? words.verdicts.unknown : shown(m.voltageV, 'V', units, { digits: 4 })}</td>
              <td>
                {m.verdict === null ? null : <Mark of={m.verdict} />} {m.verdict === null ? '' : words.verdicts[m.verdict]}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="quiet">{words.yard.note}</p>
    </section>
  )
}
