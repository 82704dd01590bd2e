import type { Problem } from '@plugstead/engine/kernel'
import { useRef, useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { useWords } from '../words/index.ts'
import type { AirRoomView, WeatherFileView } from '../worker/air/types.ts'

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
  const give = async (file: File | null): Promise<void> => {
    setReading(true)
    setProblems([])
    const answer = await session.giveWeather(file)
    setReading(false)
    if (answer !== null && !answer.ok) setProblems(answer.problems)
    else setRead(answer === null ? null : answer.value)
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
        const file = event.dataTransfer.files[0]
        if (file !== undefined) void give(file)
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
          accept=".epw,.csv,.tm2,.tmy,.tmy2,.tmy3,.txt,.json,.gz"
          onChange={(event) => {
            const file = event.target.files?.[0]
            event.target.value = ''
            if (file !== undefined) void give(file)
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
          </div>
        )}
      </div>
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
