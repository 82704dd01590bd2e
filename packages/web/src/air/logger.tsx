import type { Problem } from '@plugstead/engine/kernel'
import { useEffect, useRef, useState } from 'react'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { LETTER_PX } from '../rooms/use-width.ts'
import { weatherTextOf } from '../store/weather-file.ts'
import { useWords } from '../words/index.ts'
import type { AirRoomView, WeatherFileAsked } from '../worker/air/types.ts'
import { Columns } from './columns.tsx'
import { CountedWork } from './counted-work.tsx'
import { LoggerColumns } from './logger-columns.tsx'
import { LoggerFound } from './logger-found.tsx'
import { type LoggerGiven, useLogger } from './use-logger.ts'
import { placeText } from './weather.tsx'

/** Narrower the days of a list would lie on each other: the picture is then moved under the finger. */
const LEAST_PX = 560
/** Room at both sides within its dashed edge. */
const EDGES_PX = 28
const MOST = 6
/** Problems that a person can answer by saying which column is what. */
const COLUMNS_ASKED: ReadonlySet<string> = new Set(
  ['no-heading', 'column-absent', 'unit-unknown', 'unit-wrong', 'twice', 'day-order', 'range', 'number'].map((c) => `log/${c}`),
)

/** A logger’s list beside the box: given or dropped, run in a worker, its findings kept as measured facts. */
export function BesideLogger({
  box,
  place,
  widthPx,
}: {
  /** Null: the first. */
  readonly box: string | null
  /** Of the year that stands; null: none could be made. */
  readonly place: AirRoomView['weather']['place'] | null
  readonly widthPx: number
}) {
  const { now: job } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const own = words.air.logger
  const { now, run, stop } = useLogger(box, { units, letterPx: LETTER_PX, widthPx: Math.max(widthPx - EDGES_PX, LEAST_PX) })
  const [given, setGiven] = useState<LoggerGiven | null>(null)
  const [weather, setWeather] = useState<WeatherFileAsked | null>(null)
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [over, setOver] = useState(false)
  const logInput = useRef<HTMLInputElement>(null)
  const weatherInput = useRef<HTMLInputElement>(null)
  const lay = (next: LoggerGiven): void => {
    setProblems([])
    setGiven(next)
    run(next)
  }
  // What is worked out is of its box.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another box begins with nothing given
  useEffect(() => {
    setGiven(null)
    setWeather(null)
  }, [box])
  const textOf = async (file: File): Promise<WeatherFileAsked | null> => {
    const read = await weatherTextOf(file)
    if (!('problems' in read)) return read
    setProblems(read.problems)
    return null
  }
  /** Files that say columns are known by their first key; every other is what the button asked for. */
  const sorted = async (files: readonly File[]) => {
    const yaml = await Promise.all(files.filter((f) => /\.ya?ml$/i.test(f.name)).map((f) => f.text()))
    const file = files.find((f) => !/\.ya?ml$/i.test(f.name))
    return {
      file: file === undefined ? null : await textOf(file),
      ofLog: yaml.find((text) => /^plugstead-log-columns:/m.test(text)),
      ofWeather: yaml.find((text) => /^plugstead-weather-columns:/m.test(text)),
    }
  }
  const takeLog = async (files: readonly File[]): Promise<void> => {
    const { file, ofLog } = await sorted(files)
    const log = file ?? given?.log
    if (log === undefined || log === null) return
    lay({ log: { name: log.name, text: log.text }, mapping: ofLog ?? null, weather })
  }
  const layWeather = (next: WeatherFileAsked | null): void => {
    setWeather(next)
    if (given !== null) lay({ ...given, weather: next })
  }
  const takeWeather = async (files: readonly File[]): Promise<void> => {
    const { file, ofWeather } = await sorted(files)
    const next = file ?? weather
    if (next !== null) layWeather(ofWeather === undefined ? next : { ...next, columns: ofWeather })
  }
  const answer = now.is === 'heard' ? now.answer : null
  const refused = answer?.is === 'refused' ? answer : null
  const shown = refused?.problems ?? problems
  const wanted = (code: string) => refused?.of === 'weather' && refused.problems.some((p) => p.code === code)
  const askWeather =
    wanted('weather/columns-wanted') ||
    wanted('weather/not-known') ||
    (refused?.of === 'weather' && weather?.columns !== undefined)
  const onlyAsked = refused?.problems.every((p) => p.code === 'weather/columns-wanted') === true
  const askLog = refused?.of === 'log' && refused.problems.some((p) => COLUMNS_ASKED.has(p.code))
  const busy = now.is === 'running'
  return (
    <section
      className={over ? 'air-logger over' : 'air-logger'}
      aria-labelledby="air-logger"
      data-is={now.is === 'heard' ? now.answer.is : now.is}
      onDragOver={(event) => {
        event.preventDefault()
        setOver(true)
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault()
        setOver(false)
        void takeLog([...event.dataTransfer.files])
      }}
    >
      <h3 id="air-logger">{own.title}</h3>
      <p className="small">{own.note}</p>
      <p className="small">{own.weatherNote}</p>
      <p className="small">{own.live}</p>
      <div className="mend-acts">
        <button type="button" className="plate" disabled={busy} onClick={() => logInput.current?.click()}>
          {own.give}
        </button>
        <FileInput of={logInput} name={own.give} take={takeLog} />
        <button type="button" className="plate" disabled={busy} onClick={() => weatherInput.current?.click()}>
          {own.giveWeather}
        </button>
        <FileInput of={weatherInput} name={own.giveWeather} take={takeWeather} />
        {weather === null ? null : (
          <button type="button" className="word" disabled={busy} onClick={() => layWeather(null)}>
            {own.dropWeather}
          </button>
        )}
      </div>
      {weather === null || answer?.is === 'done' ? null : <p className="small">{own.besideFile(weather.name)}</p>}
      {now.is === 'running' ? (
        <CountedWork
          {...{ doneCount: now.doneCount, ofCount: now.ofCount, stopping: false, stop }}
          {...{ stopWord: words.air.remedies.stop, note: own.workNote }}
          said={now.ofCount === 0 ? own.begin : own.work(now.doneCount, now.ofCount)}
        />
      ) : null}
      <div role="status">
        {now.is === 'stopped' ? <p>{own.stopped(now.doneCount, now.ofCount)}</p> : null}
        {now.is === 'failed' ? <p>{own.failed}</p> : null}
        {answer?.is === 'lacks' ? (
          <p>
            {own.lacks} {answer.lacks.map((one) => sentence(one, units)).join(' ')}
          </p>
        ) : null}
        {shown.length === 0 || onlyAsked ? null : (
          <div className="air-refused">
            <p>
              <b>{own.refused[refused?.of ?? 'log']}</b>
            </p>
            <ul>
              {shown.slice(0, MOST).map((p, i) => (
                // biome-ignore lint/suspicious/noArrayIndexKey: problems of one file never change places
                <li key={i}>
                  {p.file}
                  {p.line === undefined ? '' : `, ${words.states.line(p.line)}`}: {words.states.found} {p.found};{' '}
                  {words.states.wanted} {p.wanted}. {p.mend}
                </li>
              ))}
            </ul>
            {shown.length > MOST ? <p>{words.air.moreProblems(shown.length - MOST)}</p> : null}
          </div>
        )}
      </div>
      {given !== null && (now.is === 'stopped' || (now.is === 'heard' && now.round !== job.round)) ? (
        <button type="button" className="plate" onClick={() => lay(given)}>
          {own.again}
        </button>
      ) : null}
      {askWeather && weather !== null ? (
        <Columns
          key={weather.name}
          file={weather.name}
          text={weather.text}
          place={placeText(place ?? undefined)}
          busy={busy}
          read={(columns, fill) => layWeather({ ...weather, columns, ...(fill ? { fill } : {}) })}
        />
      ) : null}
      {askLog && given !== null ? (
        <LoggerColumns
          key={given.log.name}
          file={given.log.name}
          text={given.log.text}
          busy={busy}
          read={(mapping) => lay({ ...given, mapping })}
        />
      ) : null}
      {now.is === 'heard' && now.answer.is === 'done' ? (
        <LoggerFound view={now.answer.view} old={now.round !== job.round || job.stale} />
      ) : null}
    </section>
  )
}

function FileInput({
  of,
  name,
  take,
}: {
  readonly of: React.RefObject<HTMLInputElement | null>
  readonly name: string
  readonly take: (files: readonly File[]) => Promise<void>
}) {
  return (
    <input
      ref={of}
      type="file"
      className="spoken"
      tabIndex={-1}
      aria-label={name}
      multiple
      onChange={(event) => {
        const files = [...(event.target.files ?? [])]
        event.target.value = ''
        void take(files)
      }}
    />
  )
}
