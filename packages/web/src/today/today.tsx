import type { Problem } from '@plugstead/engine/kernel'
import { useEffect, useState } from 'react'
import { useBench } from '../bench.ts'
import { draft } from '../call/draft.ts'
import { Problems } from '../frame/strips.tsx'
import { useAnatomy } from '../hands/anatomy.ts'
import { HandsAndEyes } from '../hands/hands-and-eyes.tsx'
import { AwayWord, OlderStrip } from '../kept/kept-words.tsx'
import type { RemovedJob } from '../store/jobs.ts'
import { JobSession } from '../store/session.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import { DayLines } from './day-lines.tsx'
import { KeptJobs } from './kept-jobs.tsx'
import { ShopLine } from './shop-folder.tsx'
import { takeIn } from './take-in.ts'
import { type DayNow, useDay } from './use-day.ts'

/** A day sheet: one ruled list in four parts; below it the jobs, the examples, the shop. Takes a document wherever it is dropped. */
export default function Today() {
  const bench = useBench()
  const words = useWords()
  const anatomy = useAnatomy()
  const [round, setRound] = useState(0)
  const { now, stop, again } = useDay(round)
  const [removed, setRemoved] = useState<readonly RemovedJob[]>([])
  const [problems, setProblems] = useState<readonly Problem[]>([])
  const [taken, setTaken] = useState<string | null>(null)
  const [hands, setHands] = useState(false)
  const anew = () => setRound((n) => n + 1)
  useEffect(() => {
    document.title = words.today.title
  }, [words])
  // biome-ignore lint/correctness/useExhaustiveDependencies: a round is another reading of the store
  useEffect(() => {
    void bench.jobs.removed().then(setRemoved)
  }, [bench, round])
  const take = async (file: File | undefined) => {
    if (file === undefined) return
    const came = await takeIn(bench, file.name, new Uint8Array(await file.arrayBuffer()))
    if (came.ok) goTo({ page: 'six sides', job: came.value })
    else setProblems(came.problems)
  }
  const remove = async (id: string) => {
    await bench.jobs.remove(id)
    anew()
  }
  const restore = async (id: string) => {
    setTaken((await bench.jobs.restore(id)) ? null : id)
    anew()
  }
  const rang = async (id: string) => {
    const job = await bench.jobs.get(id)
    if (job === undefined) return
    const session = await JobSession.open({ ...bench, engine: bench.dayEngine }, job)
    await session.act(words.today.rangAct, [{ path: ['needs', 'ring-back'] }])
    session.close()
    anew()
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping a file is beside the field that takes one
    <div
      className={`job day ${anatomy}`}
      onDragOver={(event) => event.preventDefault()}
      onDrop={(event) => {
        event.preventDefault()
        void take(event.dataTransfer.files[0])
      }}
    >
      <header>
        <h1>{words.today.title}</h1>
        <p className="facts">{words.day(now.day)}</p>
        <AwayWord />
        <div className="acts">
          <button type="button" onClick={() => goTo({ page: 'call' })}>
            <span className="fold">{words.header.callSheet}</span>
          </button>
          <button type="button" onClick={() => setHands(true)} aria-haspopup="dialog">
            <span className="fold">{words.header.hands}</span>
          </button>
        </div>
      </header>
      <div className="strips">
        <OlderStrip />
      </div>
      <main className="sheet day-sheet">
        {problems.length === 0 ? null : <Problems problems={problems} />}
        {Object.keys(draft()).length === 0 ? null : (
          <button type="button" className="take" onClick={() => goTo({ page: 'call' })}>
            <span className="fold">
              {draft().where ?? words.header.callSheet}: {words.today.onSheet}
            </span>
          </button>
        )}
        <DayLines now={now} rang={(id) => void rang(id)} />
        <Reading now={now} stop={stop} again={again} />
        {taken === null ? null : <p role="alert">{words.today.nameTaken(taken)}</p>}
        <KeptJobs now={now} removed={removed} remove={(id) => void remove(id)} restore={(id) => void restore(id)} />
        <label className="take">
          <span className="fold">{words.today.open}</span>
          <input type="file" accept=".yaml,.yml,.json" onChange={(event) => void take(event.target.files?.[0])} />
        </label>
        <p className="quiet">{words.today.drop}</p>
        <ShopLine changed={anew} refused={setProblems} />
      </main>
      {hands ? <HandsAndEyes done={() => setHands(false)} /> : null}
    </div>
  )
}

/** Counted work, and its stop; said once when it was stopped. */
function Reading({ now, stop, again }: { readonly now: DayNow; readonly stop: () => void; readonly again: () => void }) {
  const words = useWords()
  const { state, readCount, unreadCount, jobs } = now
  if (state === 'read') return unreadCount === 0 ? null : <p className="quiet">{words.today.unread(unreadCount)}</p>
  const ticks = jobs.map((job, i) => (
    <path key={job.id} className={i < readCount ? 'full' : ''} d={`M${((i + 0.5) * 100) / jobs.length} 0V6`} />
  ))
  return (
    <p className="ticks" role="status">
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        {ticks}
      </svg>
      <span>{(state === 'stopped' ? words.today.stopped : words.today.reading)(readCount, jobs.length)}</span>
      <button type="button" onClick={state === 'stopped' ? again : stop}>
        {state === 'stopped' ? words.today.again : words.today.stop}
      </button>
    </p>
  )
}
