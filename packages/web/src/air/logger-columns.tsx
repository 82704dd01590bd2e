import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { saveAsFile } from '../files.ts'
import { OneOf } from '../marks/one-of.tsx'
import { useWords } from '../words/index.ts'
import type { LogTableView } from '../worker/air/logger-types.ts'
import { Column, Field } from './columns.tsx'
import { BETWEEN } from './columns-form.ts'
import { type LoggerForm, loggerFormOf, loggerLacking, logMappingText, logUnits } from './logger-form.ts'

/** Enough of a list for its headings and first rows. */
const BEGINNING = 64 * 1024

/** A logger’s list whose headings do not say all: beside each column what it is. */
export function LoggerColumns({
  file,
  text,
  busy,
  read,
}: {
  readonly file: string
  readonly text: string
  readonly busy: boolean
  readonly read: (mapping: string) => void
}) {
  const { engine } = useBench()
  const words = useWords().air.columns
  const own = useWords().air.logger.columns
  const [head, setHead] = useState<LogTableView | null>(null)
  const [form, setForm] = useState<LoggerForm | null>(null)
  const [look, setLook] = useState<{ readonly between: LogTableView['between'] | null; readonly skipLines: number | null }>({
    ...{ between: null, skipLines: null },
  })
  useEffect(() => {
    let gone = false
    void engine.call('logTable', { text: text.slice(0, BEGINNING), ...look }).then((found) => {
      if (gone) return
      setHead(found)
      setForm(found === null ? null : loggerFormOf(found))
    })
    return () => {
      gone = true
    }
  }, [engine, text, look])
  const cut = (
    <div className="air-column-cut">
      <OneOf
        title={words.between}
        of={Object.fromEntries(BETWEEN.map((one) => [one, words.betweenWords[one]])) as Record<LogTableView['between'], string>}
        now={head?.between ?? look.between ?? 'comma'}
        take={(between) => setLook({ ...look, between })}
      />
      <Field
        name={own.skip}
        value={String(look.skipLines ?? head?.skipLines ?? 0)}
        take={(value) => setLook({ ...look, skipLines: Math.min(60, Number(/^\d+$/.exec(value)?.[0] ?? 0)) })}
      />
    </div>
  )
  if (head === null || form === null)
    return (
      <section className="air-columns" aria-label={words.title(file)}>
        <h4>{words.title(file)}</h4>
        <p>{own.noTable}</p>
        {cut}
      </section>
    )
  const set = (part: Partial<LoggerForm>): void => setForm({ ...form, ...part })
  const left = loggerLacking(form, head)
  const mapping = logMappingText(file, head, form)
  return (
    <section className="air-columns" aria-label={words.title(file)}>
      <h4>{words.title(file)}</h4>
      <p className="small">{own.note}</p>
      {cut}
      <ul className="air-column-list">
        {head.columns.map((column, i) => (
          <Column
            // biome-ignore lint/suspicious/noArrayIndexKey: columns of one file never change places
            key={i}
            n={i + 1}
            column={column}
            kinds={own.kinds}
            unitsOf={logUnits}
            said={form.columns[i] ?? { what: '', unit: '' }}
            take={(part) => set({ columns: form.columns.map((one, n) => (n === i ? { ...one, ...part } : one)) })}
          />
        ))}
      </ul>
      <OneOf title={own.stamp} of={own.stampWords} now={form.stamp} take={(stamp) => set({ stamp })} />
      <OneOf title={own.order} of={own.orderWords} now={form.order} take={(order) => set({ order })} />
      <Field name={own.clock} value={form.clock} take={(clock) => set({ clock })} />
      <Field name={words.missing} value={form.missing} take={(missing) => set({ missing })} />
      {left.length === 0 ? null : (
        <p role="status">
          {words.left} {left.map((one) => own.lacking[one]).join('; ')}.
        </p>
      )}
      <div className="mend-acts">
        <button type="button" className="one-act" disabled={busy || left.length > 0} onClick={() => read(mapping)}>
          {own.read}
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
      <p className="small">{own.keepNote}</p>
    </section>
  )
}
