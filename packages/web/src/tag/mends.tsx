import type { Finding, Mend } from '@plugstead/engine/kernel'
import { formatNumber } from '@plugstead/engine/kernel'
import { useWanted, wantTrial } from '../air/use-trial.ts'
import { useJob } from '../bench.ts'
import { usePreferences } from '../hands/preferences.ts'
import { sentence } from '../hands/units.ts'
import { Mark } from '../marks/mark.tsx'
import type { Trial } from '../store/session.ts'
import { turnTo, useRoute } from '../where.ts'
import { useWords } from '../words/index.ts'
import { pinEdit } from './pin-edit.ts'

/** What would mend a finding: each a strip that says what changes, what it costs and what moves, and lets a person try it at once. */
export function Mends({ finding }: { readonly finding: Finding }) {
  const { now } = useJob()
  const { trial } = now
  // While one is tried the finding may be mended and gone: its strip stays until it is kept or taken back.
  const mends = trial !== null && isOf(trial, finding) ? [trial.of.mend as Mend] : finding.mends.slice(0, MOST_SHOWN)
  if (mends.length === 0) return null
  return (
    <div className="mends">
      {mends.map((mend) => (
        <Strip key={`${mend.path} ${mend.value}`} mend={mend} code={finding.code} subject={finding.subject} />
      ))}
    </div>
  )
}

const MOST_SHOWN = 3
const isOf = ({ of }: Trial, { code, subject }: Pick<Finding, 'code' | 'subject'>): boolean =>
  of.code === code && of.subject === subject

/** The strip of the mend that is being tried, wherever its finding went. */
export function TrialStrip() {
  const { now } = useJob()
  const { trial } = now
  if (trial === null) return null
  return (
    <div className="mends trial-strip">
      <Strip mend={trial.of.mend} code={trial.of.code} subject={trial.of.subject} />
    </div>
  )
}

function Strip({
  mend,
  code,
  subject,
}: {
  readonly mend: Pick<Mend, 'path' | 'value' | 'words' | 'tried'>
  readonly code: string
  readonly subject: string
}) {
  const { session, now } = useJob()
  const words = useWords()
  const { units } = usePreferences()
  const { trial } = now
  const said = sentence(mend.words, units)
  const pin = now.answer?.pins.find((p) => p.path === mend.path)
  const on =
    trial !== null && isOf(trial, { code, subject }) && trial.of.mend.path === mend.path && trial.of.mend.value === mend.value
  const known = on ? effectsOf(trial, words) : mend.tried === undefined ? null : triedOf(mend.tried, words)
  const inRoom = useRoomTrial(mend)
  const keep = async (): Promise<void> => {
    const why = now.trial?.of.mend.words ?? mend.words
    await session.act(words.mends.keepAct(mend.words), [pinEdit(mend.path, mend.value, words.tag.desk, why)])
  }
  return (
    <fieldset className={on ? 'mend trying' : 'mend'} aria-label={`${words.mends.mend}: ${said}`}>
      <p>{said}</p>
      {pin !== undefined ? (
        <p className="small">
          <Mark of="punch" /> {words.mends.pinned(mend.path, pin.by, pin.why)}
        </p>
      ) : (
        <p className="small">
          {inRoom?.on === true && !on
            ? words.mends.triedInRoom
            : known !== null
              ? known.join('; ')
              : inRoom !== null
                ? words.mends.notRun
                : words.mends.notTried}
        </p>
      )}
      <div className="mend-acts">
        {pin !== undefined ? (
          <button
            type="button"
            className="word"
            onClick={() => void session.act(words.tag.unpinAct(mend.path), [{ path: ['choices', mend.path] }])}
          >
            {words.mends.unpin}
          </button>
        ) : on ? (
          <>
            <span className="small">{words.mends.trying}</span>
            <button ref={focused} type="button" className="one-act" onClick={() => void keep()}>
              {words.mends.keep}
            </button>
            <button type="button" className="word" onClick={() => void session.takeBack()}>
              {words.mends.takeBack}
            </button>
          </>
        ) : inRoom !== null && !inRoom.on ? (
          <button type="button" className="word" disabled={now.stale || now.work !== null} onClick={inRoom.begin}>
            {words.mends.try}
          </button>
        ) : (
          <button
            type="button"
            className="word"
            disabled={now.stale || now.work !== null}
            onClick={() => void session.try({ code, subject, mend: { path: mend.path, value: mend.value, words: mend.words } })}
          >
            {inRoom === null ? words.mends.try : words.mends.planWith}
          </button>
        )}
        {inRoom?.on === true && !on ? (
          <button type="button" className="word" onClick={inRoom.takeBack}>
            {words.mends.takeBack}
          </button>
        ) : null}
      </div>
    </fieldset>
  )
}

type Words = ReturnType<typeof useWords>

/**
 * A mend of what keeps a box dry and cool, beside the room of the air: the year of that box alone is run with it there, in a second or so, before
 * anybody plans the whole job with it. Null: another mend, or another page.
 */
function useRoomTrial({ path, value }: Pick<Mend, 'path' | 'value'>) {
  const route = useRoute()
  const wanted = useWanted()
  const [, box, choice] = /^air\.(.+)\.([a-z-]+)$/.exec(path) ?? []
  if (box === undefined || choice === undefined || route.page !== 'room' || route.question !== 'air') return null
  const said = value === true ? 'yes' : value === false ? 'no' : String(value)
  const pins: Readonly<Record<string, string>> = wanted.box === box ? wanted.pins : {}
  return {
    on: pins[choice] === said,
    begin: (): void => {
      wantTrial(box, { ...pins, [choice]: said })
      if (route.air?.box !== box) turnTo({ ...route, air: { ...route.air, box } })
      document.getElementById('air-what-if')?.scrollIntoView({ block: 'start' })
    },
    takeBack: (): void => wantTrial(box, Object.fromEntries(Object.entries(pins).filter(([name]) => name !== choice))),
  }
}

function effectsOf(trial: Trial, words: Words): readonly string[] {
  const moved = trial.moved.map(({ id, is }) => words.mends.moves(words.questions[id], words.verdicts[is]))
  return [
    words.mends.becomes(words.verdicts[trial.verdict]),
    trial.moneyDelta === null ? words.mends.noMoney : words.mends.money(signed(trial.moneyDelta, trial.currency)),
    ...(trial.daysDelta === null
      ? []
      : [trial.daysDelta === 0 ? words.mends.sameDays : words.mends.days(signed(trial.daysDelta, ''))]),
    moved.length === 0 ? words.mends.nothingMoves : moved.join(', '),
    ...(trial.planned ? [words.mends.planned] : []),
  ]
}

const triedOf = ({ verdict, moved, moneyDelta }: NonNullable<Mend['tried']>, words: Words): readonly string[] => [
  words.mends.becomes(words.verdicts[verdict]),
  moneyDelta === null ? words.mends.noMoney : words.mends.money(signed(moneyDelta, '')),
  moved.length === 0 ? words.mends.nothingMoves : moved.join(', '),
]

/** Keys stay on the strip when *Try it* gives way to *Keep*. */
const focused = (button: HTMLButtonElement | null): void => button?.focus()

/** +12.40 USD, −3. */
function signed(value: number, unit: string): string {
  const sign = value > 0 ? '+' : value < 0 ? '−' : '±'
  const digits = formatNumber(Math.abs(value), { digits: 4, shortest: true })
  return `${sign}${digits}${unit === '' ? '' : `\u202f${unit}`}`
}
