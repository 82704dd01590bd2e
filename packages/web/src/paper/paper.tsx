import { useState } from 'react'
import { useAsked } from '../ask.ts'
import { useJob } from '../bench.ts'
import { Ticks } from '../frame/ticks.tsx'
import { useAnatomy } from '../hands/anatomy.ts'
import { OneOf } from '../marks/one-of.tsx'
import type { JobRoute } from '../route.ts'
import { goTo } from '../where.ts'
import type { Words } from '../words/en.ts'
import { useWords } from '../words/index.ts'
import type { SheetLine } from '../worker/protocol.ts'
import { Files } from './files.tsx'
import { MakePdf } from './make.tsx'
import { Offer } from './offer.tsx'
import { Page } from './page.tsx'
import { type Print, printOptions, type ReaderWord, useTypesetter } from './typesetter.ts'

type PaperRoute = Extract<JobRoute, { page: 'paper' }>

/** The list of sheets by name, one of them as it will print, and every file the job can be taken out as. */
export default function Paper({ route }: { readonly route: PaperRoute }) {
  return route.sheet === 'offer' || route.sheet === 'rent' ? (
    <Offer route={route} rent={route.sheet === 'rent'} />
  ) : (
    <Book route={route} />
  )
}

function Book({ route }: { readonly route: PaperRoute }) {
  const words = useWords()
  const { now } = useJob()
  const phone = useAnatomy() === 'phone'
  const [reader, setReader] = useState<ReaderWord>('all')
  const [size, setSize] = useState<'letter' | 'a4' | null>(null)
  const [check, setCheck] = useState<'on' | 'off'>('off')
  const listed = useAsked('sheets', { reader: reader === 'all' ? null : reader })
  const print: Print = { reader, paper: size ?? listed?.usualPaper ?? 'letter', check: check === 'on' }
  const { make, said } = useTypesetter(reader === 'all' ? 'book' : reader, (engine) => engine.call('book', printOptions(print)))
  const sheets = listed?.sheets ?? []
  const shown = sheets.find((s) => s.id === route.sheet) ?? (phone ? undefined : sheets[0])
  const page = useAsked('page', shown === undefined ? null : { sheet: shown.id, ...printOptions(print) })
  if (listed === undefined || listed === null) return <p className="quiet">{words.states.reading}</p>
  return (
    <div className={now.stale ? 'paper-room stale' : 'paper-room'}>
      {phone && shown !== undefined ? null : (
        <section className="paper-list" aria-label={words.paper.title}>
          <h2>{words.paper.title}</h2>
          <OneOf title={words.paper.reader} of={words.paper.readers} now={reader} take={setReader} />
          <OneOf title={words.paper.size} of={words.paper.sizes} now={print.paper} take={setSize} />
          <OneOf title={words.paper.check} of={words.paper.checks} now={check} take={setCheck} />
          <MakePdf make={make} said={said} />
          {phone ? <Ticks /> : null}
          <h3>{words.offer.toTheCustomer}</h3>
          <p className="sheets">
            <button type="button" onClick={() => goTo({ page: 'paper', job: route.job, sheet: 'offer' })}>
              {words.offer.title} <small>{words.offer.what}</small>
            </button>
            <button type="button" onClick={() => goTo({ page: 'paper', job: route.job, sheet: 'rent' })}>
              {words.offer.withRent} <small>{words.offer.rentWhat}</small>
            </button>
          </p>
          <h3>{words.paper.sheets}</h3>
          <Sheets sheets={sheets} shown={shown?.id ?? null} job={route.job} />
          <Files />
        </section>
      )}
      {page === undefined || page === null || shown === undefined ? null : (
        <Page key={`${shown.id} ${print.paper}`} page={page} check={print.check} />
      )}
    </div>
  )
}

const partWord = (words: Words, part: string): string =>
  (words.questions as Readonly<Record<string, string>>)[part] ?? words.paper.parts[part] ?? part

/** By question, in the order of the book. */
function Sheets({
  sheets,
  shown,
  job,
}: {
  readonly sheets: readonly SheetLine[]
  readonly shown: string | null
  readonly job: string
}) {
  const words = useWords()
  const parts = [...new Set(sheets.map((s) => s.part))]
  return (
    <dl className="sheets">
      {parts.map((part) => (
        <div key={part}>
          <dt>{partWord(words, part)}</dt>
          {sheets
            .filter((s) => s.part === part)
            .map((s) => (
              <dd key={s.id}>
                <button
                  type="button"
                  aria-current={s.id === shown ? 'page' : undefined}
                  onClick={() => goTo({ page: 'paper', job, sheet: s.id })}
                >
                  {s.head} <small>{s.sub}</small>
                </button>
              </dd>
            ))}
        </div>
      ))}
    </dl>
  )
}
