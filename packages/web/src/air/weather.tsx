import type { Problem } from '@plugstead/engine/kernel'
import { useRef, useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { weatherTextOf } from '../store/weather-file.ts'
import { useWords } from '../words/index.ts'
import type { AirRoomView, WeatherFileAsked, WeatherFileView } from '../worker/air/types.ts'
import { Columns } from './columns.tsx'
import type { ColumnsForm } from './columns-form.ts'

/** Where the hours come from, what was taken where nobody said, and where a file takes their place. */
export function WeatherUsed({ weather }: { readonly weather: AirRoomView['weather'] | null }) {
  const { session, now } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const [reading, setReading] = useState(false)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [read, setRead] = useState<WeatherFileView | null>(null)
  const [over, setOver] = useState(false)
  const input = useRef<HTMLInputElement>(null)
  /** A table that waits for a person to say which column is what. */
  const [table, setTable] = useState<{ readonly file: File; readonly text: string } | null>(null)
  const give = async (file: File | null, more: Pick<WeatherFileAsked, 'columns' | 'fill'> = {}): Promise<void> => {
    setReading(true)
    setProblems([])
    const answer = await session.giveWeather(file, more)
    setReading(false)
    if (answer === null || answer.ok) {
      setTable(null)
      setRead(answer === null ? null : answer.value)
      return
    }
    setProblems(answer.problems)
    if (more.columns !== undefined || file === null) return
    const mayBeTable = answer.problems.some((p) => p.code === 'weather/columns-wanted' || p.code === 'weather/not-known')
    const letters = mayBeTable ? await weatherTextOf(file) : null
    if (letters === null || !('text' in letters)) return
    if (answer.problems.every((p) => p.code === 'weather/columns-wanted')) setProblems([])
    setTable({ file, text: letters.text })
  }
  /** A table, or a table and the file that says its columns, or that file alone for the table that waits. */
  const take = async (files: readonly File[]): Promise<void> => {
    const said = files.find((f) => /\.ya?ml$/i.test(f.name))
    const file = files.find((f) => f !== said) ?? table?.file
    if (file === undefined) return
    await give(file, said === undefined ? {} : { columns: await said.text() })
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a file may be dropped here; the button inside takes the same
    <div
      className={over ? 'air-weather over' : 'air-weather'}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        void take([...event.dataTransfer.files])
      }}
    >
      {weather === null ? null : (
        <>
          <p>
            {weather.from === 'file' ? words.air.fromFile(weather.named, weather.place.name) : words.air.made(weather.place.name)}
          </p>
          {weather.assumed.length === 0 ? null : (
            <>
              <p>{words.air.filled}</p>
              <ul className="room-list">
                {weather.assumed.map((said) => (
                  <li key={said}>
                    <span className="assumed">{sentence(said, units)}</span> <small>{words.firm.assumed}</small>
                  </li>
                ))}
              </ul>
              <p className="small">{words.air.tellNote}</p>
            </>
          )}
        </>
      )}
      <p className="small">
        {words.air.giveNote} {now.kept ? words.air.kept : words.air.notKept}
      </p>
      <div className="mend-acts">
        <button type="button" className="plate" disabled={reading} onClick={() => input.current?.click()}>
          {words.air.giveFile}
        </button>
        <input
          ref={input}
          type="file"
          className="spoken"
          tabIndex={-1}
          aria-label={words.air.giveFile}
          multiple
          accept=".epw,.csv,.tm2,.tmy,.tmy2,.tmy3,.txt,.tsv,.dat,.json,.gz,.yaml,.yml"
          onChange={(event) => {
            const files = [...(event.target.files ?? [])]
            event.target.value = ''
            void take(files)
          }}
        />
        {now.weather === null ? null : (
          <button type="button" className="word" disabled={reading} onClick={() => void give(null)}>
            {words.air.dropFile}
          </button>
        )}
      </div>
      <div role="status">
        {reading ? <p>{words.air.reading}</p> : null}
        {problems.length === 0 ? null : (
          <div className="air-refused">
            <p>
              <b>{words.air.refused}</b>
            </p>
            <ul>
              {problems.slice(0, MOST).map((p, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: problems of one file never change places
                <li key={i}>
                  {p.file}
                  {p.line === undefined ? '' : `, ${words.states.line(p.line)}`}: {words.states.found} {p.found};{' '}
                  {words.states.wanted} {p.wanted}. {p.mend}
                </li>
              ))}
            </ul>
            {problems.length > MOST ? <p>{words.air.moreProblems(problems.length - MOST)}</p> : null}
          </div>
        )}
      </div>
      {table === null ? null : (
        <Columns
          key={`${table.file.name} ${table.file.size} ${table.file.lastModified}`}
          file={table.file.name}
          text={table.text}
          place={placeText(weather?.place)}
          busy={reading}
          read={(columns, fill) => void give(table.file, { columns, ...(fill ? { fill } : {}) })}
        />
      )}
      {read === null || read.notes.length + read.findings.length === 0 ? null : (
        <details>
          <summary>{words.air.notes}</summary>
          <ul className="room-list">
            {[...read.findings.map((f) => `${words.verdicts[f.verdict]}: ${f.said}`), ...read.notes].map((said) => (
              <li key={said}>{sentence(said, units)}</li>
            ))}
          </ul>
        </details>
      )}
    </div>
  )
}
const MOST = 6

/** The place of the year that stands, for a person to leave or change. */
export const placeText = (place: AirRoomView['weather']['place'] | undefined): ColumnsForm['place'] =>
  place === undefined
    ? { name: '', latitude: '', longitude: '', height: '', clock: '' }
    : {
        name: place.name,
        latitude: String(place.latitudeDeg),
        longitude: String(place.longitudeDeg),
        height: `${place.elevationM} m`,
        clock: String(place.utcOffsetH),
      }
