import type { ColumnKey, TimePart } from '@plugstead/engine/weather'
import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { saveAsFile } from '../files.ts'
import { OneOf } from '../marks/one-of.tsx'
import { useWords } from '../words/index.ts'
import type { WeatherTableView } from '../worker/air/types.ts'
import { BETWEEN, type ColumnSaid, type ColumnsForm, formOf, isTime, lacking, mappingText } from './columns-form.ts'

/** Enough of a table for its headings and first rows. */
const BEGINNING = 64 * 1024

/** A table whose columns nobody has named: its headings and first rows, and beside each what it is. */
export function Columns({
  file,
  text,
  place,
  busy,
  read,
}: {
  readonly file: string
  readonly text: string
  readonly place: ColumnsForm['place']
  readonly busy: boolean
  readonly read: (columns: string, fill: boolean) => void
}) {
  const { engine } = useBench()
  const words = useWords().air.columns
  const [head, setHead] = useState<WeatherTableView | null>(null)
  const [form, setForm] = useState<ColumnsForm | null>(null)
  const [look, setLook] = useState<{ between: WeatherTableView['between'] | null; headings: boolean | null; skipLines: number }>({
    ...{ between: null, headings: null, skipLines: 0 },
  })
  // biome-ignore lint/correctness/useExhaustiveDependencies: the place is only what the form begins with
  useEffect(() => {
    let gone = false
    void engine.call('weatherTable', { text: text.slice(0, BEGINNING), ...look }).then((found) => {
      if (gone) return
      setHead(found)
      setForm(found === null ? null : formOf(found, place))
    })
    return () => {
      gone = true
    }
  }, [engine, text, look])
  const cut = (
    <div className="air-column-cut">
      <OneOf
        title={words.between}
        of={
          Object.fromEntries(BETWEEN.map((one) => [one, words.betweenWords[one]])) as Record<WeatherTableView['between'], string>
        }
        now={head?.between ?? look.between ?? 'comma'}
        take={(between) => setLook({ ...look, between })}
      />
      <Field
        name={words.skip}
        value={String(look.skipLines)}
        take={(value) => setLook({ ...look, skipLines: Math.min(1000, Number(/^\d+$/.exec(value)?.[0] ?? 0)) })}
      />
      <OneOf
        title={words.headings}
        of={{ yes: words.yes, no: words.no }}
        now={(head?.headings ?? true) ? 'yes' : 'no'}
        take={(is) => setLook({ ...look, headings: is === 'yes' })}
      />
    </div>
  )
  if (head === null || form === null)
    return (
      <section className="air-columns" aria-label={words.title(file)}>
        <h4>{words.title(file)}</h4>
        <p>{words.noTable}</p>
        {cut}
      </section>
    )
  const set = (part: Partial<ColumnsForm>): void => setForm({ ...form, ...part })
  const setColumn = (i: number, part: Partial<ColumnSaid>): void =>
    set({ columns: form.columns.map((one, n) => (n === i ? { ...one, ...part } : one)) })
  const left = lacking(form)
  const mapping = mappingText({ name: file, head, form, skipLines: look.skipLines })
  const dated = form.columns.some((c) => c.what === 'time')
  return (
    <section className="air-columns" aria-label={words.title(file)}>
      <h4>{words.title(file)}</h4>
      <p className="small">{words.note}</p>
      {cut}
      <ul className="air-column-list">
        {head.columns.map((column, i) => (
          <Column
            // biome-ignore lint/suspicious/noArrayIndexKey: columns of one file never change places
            key={i}
            n={i + 1}
            column={column}
            kinds={words.kinds}
            unitsOf={(what: ColumnKey | TimePart | '') => (what === '' || isTime(what) ? null : head.units[what])}
            said={form.columns[i] ?? { what: '', unit: '' }}
            take={(part) => setColumn(i, part)}
          />
        ))}
      </ul>
      <OneOf title={words.stamp} of={words.stampWords} now={form.stamp as 'beginning'} take={(stamp) => set({ stamp })} />
      <OneOf title={words.clock} of={words.clockWords} now={form.clock} take={(clock) => set({ clock })} />
      {dated ? <OneOf title={words.order} of={words.orderWords} now={form.order} take={(order) => set({ order })} /> : null}
      <OneOf title={words.decimal} of={words.decimalWords} now={form.decimal} take={(decimal) => set({ decimal })} />
      <Field name={words.missing} value={form.missing} take={(missing) => set({ missing })} />
      <fieldset className="air-column-place">
        <legend>{words.place}</legend>
        {(['name', 'latitude', 'longitude', 'height', 'clock'] as const).map((key) => (
          <Field
            key={key}
            name={words.placeWords[key]}
            value={form.place[key]}
            take={(value) => set({ place: { ...form.place, [key]: value } })}
          />
        ))}
      </fieldset>
      <label className="air-column-fill">
        <input type="checkbox" checked={form.fill} onChange={(event) => set({ fill: event.target.checked })} /> {words.fill}
      </label>
      {left.length === 0 ? null : (
        <p role="status">
          {words.left} {left.map((one) => words.lacking[one]).join('; ')}.
        </p>
      )}
      <div className="mend-acts">
        <button type="button" className="one-act" disabled={busy || left.length > 0} onClick={() => read(mapping, form.fill)}>
          {words.read}
        </button>
        <button
          type="button"
          className="plate"
          disabled={left.length > 0}
          onClick={() => saveAsFile(`${file.replace(/\.[^.]*$/, '')}.columns.yaml`, mapping)}
        >
          {words.keep}
        </button>
      </div>
      <p className="small">{words.keepNote}</p>
    </section>
  )
}

export function Column<What extends string>({
  n,
  column,
  kinds,
  unitsOf,
  said,
  take,
}: {
  readonly n: number
  readonly column: Pick<WeatherTableView['columns'][number], 'heading' | 'cells'>
  readonly kinds: Readonly<Record<What, string>>
  /** Null: it is written in none. */
  readonly unitsOf: (what: What | '') => readonly string[] | null
  readonly said: { readonly what: What | ''; readonly unit: string }
  readonly take: (said: { readonly what?: What | ''; readonly unit: string }) => void
}) {
  const words = useWords().air.columns
  const name = column.heading === '' ? words.number(n) : column.heading
  const units = unitsOf(said.what)
  return (
    <li>
      <span>
        <b>{name}</b> <small className="quiet">{column.cells.join(' · ')}</small>
      </span>
      <span className="air-column-acts">
        <select
          aria-label={words.what(name)}
          value={said.what}
          onChange={(event) => {
            const what = event.target.value as What | ''
            const own = unitsOf(what)
            take({ what, unit: own?.includes(said.unit) ? said.unit : own?.length === 1 ? (own[0] ?? '') : '' })
          }}
        >
          <option value="">{words.nothing}</option>
          {(Object.entries(kinds) as [What, string][]).map(([kind, what]) => (
            <option key={kind} value={kind}>
              {what}
            </option>
          ))}
        </select>
        {units === null ? null : (
          <select aria-label={words.unit(name)} value={said.unit} onChange={(event) => take({ unit: event.target.value })}>
            <option value="">{words.noUnit}</option>
            {units.map((unit) => (
              <option key={unit} value={unit}>
                {unit}
              </option>
            ))}
          </select>
        )}
      </span>
    </li>
  )
}

export function Field({
  name,
  value,
  take,
}: {
  readonly name: string
  readonly value: string
  readonly take: (value: string) => void
}) {
  return (
    <label className="air-column-field">
      <span>{name}</span>
      <input type="text" value={value} autoComplete="off" spellCheck={false} onChange={(event) => take(event.target.value)} />
    </label>
  )
}
