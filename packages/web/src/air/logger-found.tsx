import { useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence, shown, shownTo } from '../hands/units.ts'
import { Wide } from '../rooms/wide.tsx'
import { useWords } from '../words/index.ts'
import type { LoggerRow, LoggerUnknown, LoggerView } from '../worker/air/logger-types.ts'
import { Picture } from './picture.tsx'

/** What a list says: picture, errors by sensor, what it tells of the box, and the act that keeps it. */
export function LoggerFound({ view, old }: { readonly view: LoggerView; readonly old: boolean }) {
  const { session } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const own = words.air.logger
  const [keeping, setKeeping] = useState(false)
  const [kept, setKept] = useState(false)
  const keep = async (): Promise<void> => {
    setKeeping(true)
    setKept(await session.act(own.keepAct(view.log), view.edits))
    setKeeping(false)
  }
  const told = view.unknowns.filter((u) => !u.told || u.with !== null)
  const name = (id: string): string => own.unknowns[id] ?? id
  return (
    <>
      <p>
        <b>{own.done(view.log, view.span.from, view.span.to)}</b>.{' '}
        {view.weather === '' ? own.besideMade : own.besideFile(view.weather)}
      </p>
      {kept ? <p role="status">{own.kept}</p> : null}
      {old ? <p role="status">{own.old}</p> : null}
      <h4>{own.picture}</h4>
      <Picture view={view.drawing} wide={own.picture} />
      <h4>{own.errors}</h4>
      <p className="small">{own.errorsNote}</p>
      <Errors rows={view.rows} />
      <h4>{own.told}</h4>
      {view.fitless === '' ? null : <p>{sentence(view.fitless, units)}</p>}
      {view.unknowns.length === 0 ? null : <Unknowns all={view.unknowns} />}
      {told.length === 0 ? null : (
        <ul className="room-list">
          {told.map((u) => (
            <li key={u.id}>
              <b>{name(u.id)}</b>: {[...(u.told ? [] : [u.why]), ...(u.with === null ? [] : [own.with(name(u.with))])].join(' ')}
            </li>
          ))}
        </ul>
      )}
      {view.readings === null ? null : (
        <p className="small">
          {view.readings.asideCount === 0 ? '' : `${own.aside(view.readings.asideCount, view.readings.count)} `}
          {own.bandNote}
        </p>
      )}
      {view.missed.length === 0 ? null : (
        <div className="air-refused">
          <p>
            <b>{own.missed}</b>
          </p>
          <ul>
            {view.missed.map((said) => (
              <li key={said}>{sentence(said, units)}</li>
            ))}
          </ul>
        </div>
      )}
      {view.edits.length === 0 ? null : (
        <div className="mend-acts">
          <button type="button" className="one-act" disabled={old || keeping || kept} onClick={() => void keep()}>
            {own.keep}
          </button>
          <span className="small">{own.keepNote}</span>
        </div>
      )}
      {view.notes.length === 0 ? null : (
        <details>
          <summary>{own.notes}</summary>
          <ul className="room-list">
            {view.notes.map((said) => (
              <li key={said}>{sentence(said, units)}</li>
            ))}
          </ul>
        </details>
      )}
    </>
  )
}

function Errors({ rows }: { readonly rows: readonly LoggerRow[] }) {
  const words = useWords().air.logger
  const { units } = usePreferences()
  const fitted = rows.some((r) => r.fitted !== null)
  const off = (row: LoggerRow, value: number): string =>
    row.unit === 'K' ? shownTo(1, value, 'K', units) : words.points(shownTo(1, value, '', units).trim())
  const reading = (row: LoggerRow, value: number): string => shownTo(1, value, row.unit === 'K' ? '°C' : '%', units)
  return (
    <Wide name={words.errors}>
      <table>
        <thead>
          <tr>
            {[...words.errorColumns, ...(fitted ? words.fittedColumns : [])].map((title, i) => (
              <th key={title} scope="col" className={i === 0 || i === 4 ? undefined : 'right'}>
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.name}>
              <th scope="row">{row.name}</th>
              <td className="right">{row.hoursCount}</td>
              <td className="right">{off(row, row.bias)}</td>
              <td className="right">{off(row, row.rms)}</td>
              <td className="air-worst">
                {words.worst(row.worst.when, reading(row, row.worst.logged), reading(row, row.worst.ours))}
              </td>
              {fitted ? (
                <>
                  <td className="right">{row.fitted === null ? '' : off(row, row.fitted.bias)}</td>
                  <td className="right">{row.fitted === null ? '' : off(row, row.fitted.rms)}</td>
                </>
              ) : null}
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}

function Unknowns({ all }: { readonly all: readonly LoggerUnknown[] }) {
  const words = useWords().air.logger
  const { units } = usePreferences()
  const band = (u: LoggerUnknown, of: LoggerUnknown['before']): string => {
    const share = u.unit === '1'
    const said = (value: number): string =>
      shown(share ? value * 100 : value, share ? '%' : u.unit.replace('m3', 'm³'), units, { digits: 3 })
    return of.low === of.high ? said(of.value) : words.band(said(of.value), said(of.low), said(of.high))
  }
  return (
    <Wide name={words.told}>
      <table>
        <thead>
          <tr>
            {words.toldColumns.map((title, i) =>
              title === '' ? (
                // biome-ignore lint/suspicious/noArrayIndexKey: columns never change places
                <td key={i} />
              ) : (
                <th key={title} scope="col" className="right">
                  {title}
                </th>
              ),
            )}
          </tr>
        </thead>
        <tbody>
          {all.map((u) => (
            <tr key={u.id} data-unknown={u.id}>
              <th scope="row">{words.unknowns[u.id] ?? u.id}</th>
              <td className="right">{band(u, u.before)}</td>
              <td className="right">{u.told ? band(u, u.found) : words.notTold}</td>
              <td>{u.told ? words.isTold : ''}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  )
}
