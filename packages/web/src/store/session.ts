import type { DocumentEdit } from '@plugstead/engine/job'
import type { Problem, QuestionId, Verdict } from '@plugstead/engine/kernel'
import { type Engine, EngineFault, Stopped } from '../engine/client.ts'
import type { WeatherFileAnswer, WeatherFileAsked } from '../worker/air/types.ts'
import type { GlassView, JobAnswer, JudgedNow, SheetAsked, TrialAnswer, TrialAsked } from '../worker/protocol.ts'
import { type Act, inverse, meet, patchBetween, textAfter, undoable } from './acts.ts'
import { type Drawings, type KeptDrawing, type KeptSheet, sheetOf, subjectOf } from './drawn.ts'
import type { Jobs, KeptJob } from './jobs.ts'
import { joinTabs, type Tabs } from './tabs.ts'
import { weatherTextOf } from './weather-file.ts'

type Answered = Verdict | 'not built'

/** Another tab changed the same place meanwhile. Its change stands; this one waits to be chosen or left. */
export interface Both {
  readonly theirs: Act
  readonly words: string
  readonly edits: readonly DocumentEdit[]
}

/** A mend that is being tried: the page shows the job as if it were kept, and nothing is written. */
export interface Trial extends Omit<TrialAnswer, 'answer'> {
  readonly of: TrialAsked
  /** What stood before. */
  readonly before: JobAnswer
  readonly moved: JobNow['moved']
}

/** What a session works with. */
export interface Bench {
  readonly engine: Engine
  /** Holds the design that stands to a document that was changed, while the engine plans anew. */
  readonly judge: Engine
  readonly scribe: Engine
  readonly jobs: Jobs
  readonly drawings: Drawings
}

/** Everything the page shows of a job, as plain data that is replaced and never changed. */
export interface JobNow {
  readonly id: string
  readonly file: string
  readonly text: string
  readonly kept: boolean
  /** What *Undo* would undo, in words. */
  readonly undo: string | null
  /** Of the last text that could be read and was not stopped. */
  readonly answer: JobAnswer | null
  /** The answer is of an earlier text, or there is none yet: its numbers stand in quiet ink. */
  readonly stale: boolean
  /** While stale: questions whose verdict is of this text already, of the design that stands. */
  readonly fresh: readonly QuestionId[]
  /** Counted work, while it runs. */
  readonly work: { readonly begunCount: number; readonly knownCount: number } | null
  /** Counted work of another kind, beside the planning. */
  readonly beside: { readonly begunCount: number; readonly knownCount: number } | null
  readonly stopped: boolean
  readonly problems: readonly Problem[]
  readonly fault: { readonly code: string } | null
  /** Questions whose verdict the last act moved. */
  readonly moved: readonly { readonly id: QuestionId; readonly was: Answered; readonly is: Answered }[]
  /** Words of an act that another tab did. */
  readonly elsewhere: string | null
  readonly both: Both | null
  readonly trial: Trial | null
  /** Name of the file whose hours stand for the year; null: the year is made. */
  readonly weather: string | null
  /** Counts answers: what was asked of an earlier one is asked again. */
  readonly round: number
}

/** One job that is open in this tab: its text, its acts, its answer. */
export class JobSession {
  readonly #engine: Engine
  readonly #judge: Engine
  readonly #drawings: Drawings
  readonly #scribe: Engine
  readonly #jobs: Jobs
  readonly #tabs: Tabs
  readonly #job: KeptJob
  #acts: readonly Act[]
  #now: JobNow
  #line: Promise<unknown> = Promise.resolve()
  #asked = 0
  #stopBeside: (() => void) | null = null
  #planning = false
  /** The judge knows the design that stands. */
  #heeded = false
  /** What the judge is asked already of a text that is being kept, and the plan that stood then. */
  #ahead: { readonly text: string; readonly of: JobAnswer; readonly found: Promise<JudgedNow | null> } | null = null
  /** The last answer of a plan. */
  #planned: JobAnswer | null = null
  #sheets: readonly KeptSheet[]
  #keeping: ReturnType<typeof setTimeout> | undefined
  readonly #listeners = new Set<() => void>()

  static async open(bench: Bench, job: KeptJob, drawn?: KeptDrawing): Promise<JobSession> {
    const weather = (await bench.jobs.weather(job.id).catch(() => undefined)) ?? null
    await Promise.all([bench.engine.give(weather), bench.judge.give(weather)]).catch(() => {})
    return new JobSession(bench, job, await bench.jobs.acts(job.id), weather?.name ?? null, drawn)
  }

  private constructor(
    { engine, judge, scribe, jobs, drawings }: Bench,
    job: KeptJob,
    acts: readonly Act[],
    weather: string | null,
    drawn?: KeptDrawing,
  ) {
    this.#engine = engine
    this.#judge = judge
    this.#drawings = drawings
    this.#sheets = drawn?.sheets ?? []
    this.#scribe = scribe
    this.#jobs = jobs
    this.#job = job
    this.#acts = acts
    this.#now = {
      ...{ id: job.id, file: job.file, text: textAfter(job.base, acts), kept: jobs.kept, undo: undoable(acts)?.words ?? null },
      ...{
        answer: drawn?.answer ?? null,
        stale: true,
        fresh: [],
        work: null,
        beside: null,
        stopped: false,
        problems: [],
        fault: null,
        moved: [],
        elsewhere: null,
      },
      ...{ both: null, trial: null, weather, round: 0 },
    }
    this.#tabs = joinTabs((told) => {
      if (told.job === job.id && told.n > this.#acts.length) this.#inLine(() => this.#follow())
    })
    // What is kept is drawn first: the engine is as large as everything else together.
    void (drawn === undefined ? Promise.resolve() : painted()).then(() => (this.#asked === 0 ? this.#answer() : undefined))
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  readonly now = (): JobNow => this.#now

  close(): void {
    this.#tabs.close()
    this.#listeners.clear()
  }

  /** Changes the document. Done when it is kept; the answer follows. False: it could not be done, and `problems` or `both` say why. */
  act(words: string, edits: readonly DocumentEdit[]): Promise<boolean> {
    return this.#inLine(() => this.#act(words, edits))
  }

  undo(): Promise<boolean> {
    return this.#inLine(async () => {
      const last = undoable(this.#acts)
      if (last === null) return false
      const act: Act = {
        job: this.#job.id,
        n: this.#acts.length + 1,
        words: last.words,
        edits: last.edits,
        patch: inverse(last.patch),
        undoes: last.n,
      }
      if (await this.#append(act)) return true
      await this.#follow()
      return false
    })
  }

  /** Of two changes of one place: takes this tab's, or leaves the other's. */
  async choose(mine: boolean): Promise<void> {
    const { both } = this.#now
    if (both === null) return
    this.#set({ both: null })
    if (mine) await this.act(both.words, both.edits)
  }

  /** Tries a mend at once; another one that is being tried is taken back. */
  async try(of: TrialAsked): Promise<void> {
    const before = this.#now.trial?.before ?? this.#now.answer
    if (before === null || this.#now.stale) return
    const asked = this.#asked
    this.#set({ work: { begunCount: 0, knownCount: 0 } })
    try {
      const found = await this.#engine.call('try', of)
      if (asked !== this.#asked) return
      if (found === null || !found.ok) return this.#set({ work: null, problems: found?.problems ?? [] })
      const { answer, ...trial } = found.value
      const moved = movedBetween(before, answer)
      this.#set({ work: null, answer, trial: { ...trial, of, before, moved }, moved, round: this.#now.round + 1 })
    } catch (thrown) {
      if (asked !== this.#asked || thrown instanceof Stopped) return
      this.#set({ work: null, fault: { code: thrown instanceof EngineFault ? thrown.code : String(thrown) } })
    }
  }

  /** The mend that is being tried is not kept: everything is as it was. */
  async takeBack(): Promise<void> {
    const { trial } = this.#now
    if (trial === null) return
    await this.#engine.call('try', null)
    if (this.#now.trial !== trial) return
    this.#set({ answer: trial.before, trial: null, moved: [], round: this.#now.round + 1 })
  }

  /** Other work: its count stands where the planning's stands, and *Stop* ends it. One at a time. */
  async beside<T>(run: (watch: (begunCount: number, knownCount: number) => void) => Promise<T>, stop: () => void): Promise<T> {
    this.#stopBeside = stop
    this.#set({ beside: { begunCount: 0, knownCount: 0 } })
    try {
      return await run((begunCount, knownCount) => this.#set({ beside: { begunCount, knownCount } }))
    } finally {
      this.#stopBeside = null
      this.#set({ beside: null })
    }
  }

  /** A sheet as it was drawn last, for a room of any size. */
  sheet(asked: SheetAsked): GlassView | undefined {
    return sheetOf(this.#sheets, asked)?.view
  }

  /** Keeps a sheet of the answer shown, to be drawn at once when the job is opened again. */
  keepSheet(asked: SheetAsked, view: GlassView): void {
    const others = this.#sheets.filter((one) => subjectOf(one.asked) !== subjectOf(asked))
    this.#sheets = [{ asked, view }, ...others].slice(0, MOST_SHEETS)
    clearTimeout(this.#keeping)
    this.#keeping = setTimeout(() => {
      const answer = this.#planned
      if (answer !== null && !this.#now.stale && this.#now.trial === null)
        void this.#drawings.keep({ id: this.#job.id, answer, sheets: this.#sheets })
    }, KEEP_AFTER_MS)
  }

  /** Hours of a file stand for the year of this job, kept with it where this device stores; null: the made year again. */
  async giveWeather(file: File | null, more: Pick<WeatherFileAsked, 'columns' | 'fill'> = {}): Promise<WeatherFileAnswer | null> {
    const text = file === null ? null : await weatherTextOf(file)
    if (text !== null && 'problems' in text) return { ok: false, problems: text.problems }
    const asked = text === null ? null : { ...text, ...more }
    if (this.#now.work !== null) this.stop()
    const answer = await this.#engine.give(asked)
    if (answer !== null && !answer.ok) return answer
    await this.#judge.give(asked).catch(() => null)
    await this.#jobs.keepWeather(this.#job.id, asked)
    this.#set({ weather: asked?.name ?? null, stale: true })
    void this.#answer()
    return answer
  }

  /** Ends the work that runs; what was answered before stands. */
  stop(): void {
    if (this.#now.work === null) {
      this.#stopBeside?.()
      return
    }
    this.#asked += 1
    this.#planning = false
    this.#engine.stop()
    this.#set({ work: null, stopped: true })
  }

  /** Asks anew, after a stop. */
  again(): void {
    void this.#answer()
  }

  #inLine<T>(work: () => Promise<T>): Promise<T> {
    const next = this.#line.then(work, work)
    this.#line = next.catch(() => undefined)
    return next
  }

  async #act(words: string, edits: readonly DocumentEdit[]): Promise<boolean> {
    const text = await this.#scribe.call('edit', { text: this.#now.text, edits })
    if (!text.ok) {
      this.#set({ problems: text.problems })
      return false
    }
    const patch = patchBetween(this.#now.text, text.value)
    if (patch.gone === '' && patch.come === '') return true
    const act: Act = { job: this.#job.id, n: this.#acts.length + 1, words, edits, patch }
    // The judge need not wait for the store: shown is what it finds only when the act is kept.
    if (this.#heeded && this.#planned !== null)
      this.#ahead = { text: text.value, of: this.#planned, found: this.#judgementOf(text.value, false) }
    if (await this.#append(act)) return true
    const newer = await this.#follow()
    const theirs = newer.find((one) => meet(one.edits, edits))
    if (theirs === undefined) return this.#act(words, edits)
    this.#set({ both: { theirs, words, edits } })
    return false
  }

  async #append(act: Act): Promise<boolean> {
    if (!(await this.#jobs.append(act))) return false
    this.#took([act])
    this.#tabs.tell({ job: act.job, n: act.n })
    return true
  }

  /** Takes over what another tab did. */
  async #follow(): Promise<readonly Act[]> {
    const newer = await this.#jobs.acts(this.#job.id, this.#acts.length + 1)
    if (newer.length > 0) {
      this.#took(newer)
      this.#set({ elsewhere: newer.at(-1)?.words ?? null })
    }
    return newer
  }

  #took(acts: readonly Act[]): void {
    this.#acts = [...this.#acts, ...acts]
    const text = textAfter(this.#now.text, acts)
    const answer = this.#now.trial?.before ?? this.#now.answer
    const freed = { answer, fresh: [], trial: null, problems: [], moved: [], elsewhere: null }
    this.#set({ text, undo: undoable(this.#acts)?.words ?? null, stale: true, ...freed })
    void this.#answer()
  }

  async #answer(): Promise<void> {
    const asked = ++this.#asked
    const { text, file } = this.#now
    // Work on a text that has changed since is of no use to anybody.
    if (this.#planning) this.#engine.stop()
    this.#planning = false
    this.#set({ work: { begunCount: 0, knownCount: 0 }, stopped: false, fault: null })
    try {
      await this.#judged(asked, false)
      if (asked !== this.#asked) return
      this.#planning = true
      const result = await this.#engine.call('open', { text, file }, (begunCount, knownCount) => {
        if (asked === this.#asked) this.#set({ work: { begunCount, knownCount } })
      })
      if (asked !== this.#asked) return
      this.#planning = false
      if (!result.ok) return this.#set({ work: null, problems: result.problems })
      const moved = this.#planned === null ? [] : movedBetween(this.#planned, result.value)
      this.#planned = result.value
      this.#set({ work: null, answer: result.value, stale: false, fresh: [], problems: [], moved, round: this.#now.round + 1 })
      void this.#heed(asked)
    } catch (thrown) {
      if (asked !== this.#asked || thrown instanceof Stopped) return
      this.#planning = false
      this.#set({ work: null, fault: { code: thrown instanceof EngineFault ? thrown.code : String(thrown) } })
    }
  }

  /** What can be said before a plan: the design that stands, held to the text as it is now; at first without what needs draws. */
  async #judged(asked: number, all: boolean): Promise<void> {
    const { text } = this.#now
    if (!this.#heeded || this.#planned === null) return
    const ahead = this.#ahead
    this.#ahead = null
    const running = !all && ahead?.text === text && ahead.of === this.#planned
    const found = await (running ? ahead.found : this.#judgementOf(text, all))
    if (asked !== this.#asked || found === null || !this.#now.stale) return
    const answer = { ...this.#planned, ...found.judgement }
    this.#set({ answer, fresh: found.fresh, moved: movedBetween(this.#planned, answer) })
    if (!all) setTimeout(() => asked === this.#asked && this.#now.stale && this.#judged(asked, true), DRAWS_AFTER_MS)
  }

  #judgementOf(text: string, all: boolean): Promise<JudgedNow | null> {
    return this.#judge.call('judge', { job: this.#job.id, file: this.#now.file, text, all }).catch(() => null)
  }

  /** Hands the design that was planned to the judge. */
  async #heed(asked: number): Promise<void> {
    try {
      const standing = await this.#engine.call('standing', { job: this.#job.id })
      if (standing === null || asked !== this.#asked) return
      await this.#judge.call('heed', standing)
      this.#heeded = true
    } catch {
      // Without a judge a change waits for its plan.
      this.#heeded = false
    }
  }

  #set(part: Partial<JobNow>): void {
    this.#now = { ...this.#now, ...part }
    for (const listener of this.#listeners) listener()
  }
}

/** Sheets kept of a job, and how long one must have been looked at. */
const MOST_SHEETS = 3
const KEEP_AFTER_MS = 500
/** Draws wait until a person has stopped changing the same thing. */
const DRAWS_AFTER_MS = 300
/** A tab in the background is never painted. */
const PAINTED_BY_MS = 500

/** What React has in hand is on the screen. */
function painted(): Promise<void> {
  if (typeof requestAnimationFrame === 'undefined') return Promise.resolve()
  return new Promise((resolve) => {
    setTimeout(resolve, PAINTED_BY_MS)
    requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(resolve)))
  })
}

function movedBetween(was: JobAnswer, is: JobAnswer): JobNow['moved'] {
  return is.questions.flatMap(({ id, verdict }, i) => {
    const before = was.questions[i]?.verdict ?? 'not built'
    return before === verdict ? [] : [{ id, was: before, is: verdict }]
  })
}
