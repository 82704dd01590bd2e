import type { BookOptions, NotTold, Reader, SetBlock } from '@plugstead/book'
import type { Block } from '@plugstead/book/sheets'
import type { WorkingBlock } from '@plugstead/book/working'
import type { Item, Scene } from '@plugstead/drawings'
import type { DesignYear, RemedyPart, RemedyStep } from '@plugstead/engine/air'
import type { TurningPoint } from '@plugstead/engine/assess'
import type { Assumption, CallAnswers, CallDays, CallQuestion, DocumentEdit, Pin, Side } from '@plugstead/engine/job'
import type { Finding, Problem, QuestionId, Result, Verdict } from '@plugstead/engine/kernel'
import type { PlanResult } from '@plugstead/engine/plan'
import type { MovedCord } from '@plugstead/engine/power'
import type { Ranked } from '@plugstead/engine/rank'
import type { LoggerAnswer, LoggerAsked, LogTableAsked, LogTableView } from './air/logger-types.ts'
import type {
  AirAsked,
  AirHourAsked,
  AirHourView,
  AirMapAsked,
  AirMapView,
  AirReasonsAsked,
  AirReasonsView,
  AirRoomView,
  AirTryAsked,
  AirTryView,
  KeepAirAsked,
  RemediesBegun,
  RemedyTask,
  RemedyView,
  RemedyViewAsked,
  WeatherFileAnswer,
  WeatherFileAsked,
  WeatherTableAsked,
  WeatherTableView,
  YearsBegun,
  YearsFound,
  YearsView,
} from './air/types.ts'

/** A document as a person named it. */
export interface Given {
  readonly file: string
  readonly text: string
}

/** What a page shows of a job before anything is touched. */
export interface JobAnswer extends Judgement {
  readonly title: string
  readonly invented: boolean
  readonly head: {
    readonly rules: string
    readonly neededBy: string | null
    readonly orderDate: string | null
    readonly place: string
    readonly plugsCount: number
    /** Offer, service and staging of the design that is shown. */
    readonly chosen: string
    readonly sound: boolean
    readonly pinsInTheWay: readonly string[]
  }
}

/** What was found of a design. */
export interface Judgement {
  readonly questions: readonly { readonly id: QuestionId; readonly verdict: Verdict | 'not built'; readonly decides: boolean }[]
  readonly findings: readonly Finding[]
  readonly assumed: readonly Assumption[]
  readonly pins: readonly Pin[]
  readonly boxes: readonly BoxAnswer[]
}

/** What was planned: plain data as text, so that handing it on costs the page nothing. */
export interface Planned {
  readonly design: string
  readonly beside: PlanResult['beside']
}

/** The design that stands, for the judge. */
export interface Standing extends Planned {
  readonly job: string
  readonly given: Given
}

export interface JudgeAsked extends Given {
  readonly job: string
  /** Also what is counted after the others: the skin, the haul, the bill, the dates, the money. */
  readonly all: boolean
}

/** The design that stood, held to the document as it is now, before anything is planned anew. */
export interface JudgedNow {
  readonly judgement: Judgement
  /** Questions that were answered for this text. Of the others the answer before stands. */
  readonly fresh: readonly QuestionId[]
}

export interface BoxAnswer {
  readonly box: string
  /** Side by side, left to right, top to bottom. */
  readonly things: readonly ThingLine[]
  /** Machines it feeds, phase by phase. */
  readonly machines: readonly MachineLine[]
  /** Phases in which it feeds something. */
  readonly phases: readonly string[]
}

/** A machine at the end of its cords. */
export interface MachineLine {
  readonly id: string
  readonly phase: string
  readonly what: string
  /** Its outlets, or what it is wired to: the things whose tags tell of it. */
  readonly things: readonly string[]
  /** By the plug that the cord belongs to. */
  readonly lengthM: Readonly<Record<string, number>>
  readonly voltageV: number | null
  /** Null: nobody said where it stands. */
  readonly bearingDeg: number | null
  /** Worst of what `reach` found of it. */
  readonly verdict: Verdict | null
  /** Names under which its sign, the words beside it and its cords are drawn. */
  readonly drawnAs: { readonly sign: string; readonly words: string; readonly cords: readonly string[] }
}

/** One thing of a box: what a list says of it. */
export interface ThingLine {
  readonly id: string
  readonly kind: string
  /** Letters a person calls it by at the wall. */
  readonly letters: string
  readonly what: string
  readonly side: Side
  readonly face: 'inside' | 'outside'
  /** Middle of it above the floor, and along its side from where that side is measured. */
  readonly upM: number
  readonly alongM: number
  readonly from: string
  readonly circuits: readonly string[]
  /** Worst of its findings; null when there is none. */
  readonly verdict: Verdict | null
  /** Places in `JobAnswer.findings`, worst first. */
  readonly findings: readonly number[]
  readonly pinned: boolean
  /** Where its place is pinned, and the place as a pin tells it: along its side from the datum, and up (on roof and floor: across). Null: it cannot be moved. */
  readonly place: { readonly path: string; readonly alongM: number; readonly upM: number } | null
  /** Clashes with other things, mm too little. */
  readonly clashes: readonly { readonly against: string; readonly byMm: number }[]
}

export type Firm = 'worked out' | 'assumed' | 'bounded' | 'told' | 'pinned'

export type FactKey =
  | 'hangs on'
  | 'mass'
  | 'size'
  | 'circuit'
  | 'feeds'
  | 'power'
  | 'runs'
  | 'cord length'
  | 'volts'
  | 'current'
  | 'class'
  | 'above ground'
  | 'used ways'
  | 'highest fault current'
  | 'lowest fault current'
  | 'heavier leg'

export type ChoiceKey =
  | 'offer'
  | 'interim'
  | 'staging'
  | 'lift'
  | 'breaker'
  | 'wire'
  | 'cord'
  | 'service'
  | 'ways'
  | 'interrupts'
  | 'outlet'
  | 'feed'
  | 'roof paint'
  | 'wall paint'
  | 'vents'
  | 'vent places'
  | 'winter'
  | 'roof foam'
  | 'wall foam'
  | 'rails foamed'
  | 'second roof'
  | 'fan'
  | 'heater'
  | 'humidistat'
  | 'drip hood'
  | 'floor painted'

export interface Fact {
  readonly key: FactKey
  readonly value: number | string
  readonly unit: string
  /** Both ends, where it is bounded; `value` is then the higher. */
  readonly low?: number
  readonly firm: Firm
  readonly by?: string
  readonly working?: string
}

export interface Choice {
  readonly key: ChoiceKey
  readonly value: number | string
  readonly unit: string
  /** Path under `choices` where it can be pinned; absent: it follows from others. */
  readonly path?: string
  readonly pin?: Pin
  /** What it may be instead, where that is a list. */
  readonly options?: readonly (string | number)[]
}

/** The tag of a thing. */
export interface ThingAnswer {
  readonly id: string
  readonly facts: readonly Fact[]
  readonly choices: readonly Choice[]
}

export interface Rect {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

/** A drawing laid out for a screen. Items are in millimetres of lettering; rectangles in pixels. */
export interface GlassView {
  readonly widthPx: number
  readonly heightPx: number
  readonly pxPerMm: number
  readonly said: string
  readonly items: readonly Item[]
  readonly things: readonly (Rect & { readonly id: string; readonly side: Side })[]
  readonly sides: readonly SideView[]
  readonly machines: readonly MachineView[]
}

/** A side on the drawing: pixels of its datum, of a metre along it and a metre up; and where its inner flats have their middles. */
export interface SideView extends Rect {
  readonly side: Side
  readonly zero: readonly [number, number]
  readonly along: readonly [number, number]
  readonly up: readonly [number, number]
  readonly flatsM: readonly number[]
}

export interface MachineView extends Rect {
  readonly id: string
  readonly from: readonly [number, number]
  readonly cordsFrom: readonly (readonly [number, number])[]
  /** In the folded yard; null beside the net. */
  readonly bearingDeg: number | null
  readonly out: readonly [number, number]
  /** Pixels a metre of cord takes; beside the net a drag moves along `out` by so many. */
  readonly pxPerM: number
}

export interface SheetAsked {
  readonly box: string
  /** Null: the whole net. `yard`: the box folded, its yard to scale. */
  readonly side: Side | 'yard' | null
  /** Absent: the first in which the box feeds something. */
  readonly phase?: string
  readonly units: 'metric' | 'us'
  /** Without the yard around it. */
  readonly alone?: true
  readonly widthPx: number
  readonly heightPx: number
  readonly letterPx: number
}

export interface RoomAsked {
  readonly question: QuestionId
  /** Which of its sheets, from 0. */
  readonly sheet: number
  readonly widthPx: number
  readonly letterPx: number
}

/** Where something leads that is touched: to the tag of a thing, to a derivation. */
export interface Leads {
  readonly thing?: { readonly box: string; readonly id: string }
  readonly working?: string
}

type Of<K extends Block['k']> = Extract<Block, { readonly k: K }>

/** A sheet of the book as it stands on glass: the same words and figures, with where each leads. */
export type RoomBlock =
  | Of<'para' | 'head' | 'strip' | 'facts' | 'lists' | 'labels'>
  | (Of<'table'> & { readonly leads: readonly Leads[] })
  | (Of<'panel'> & { readonly leads: Readonly<Record<string, Leads>> })
  | { readonly k: 'drawing'; readonly view: RoomDrawing }

export interface RoomDrawing {
  readonly widthPx: number
  readonly heightPx: number
  readonly pxPerMm: number
  readonly said: string
  readonly items: readonly Item[]
  readonly places: readonly (Rect & Leads & { readonly id: string; readonly said: string; readonly verdict: Verdict | null })[]
}

export interface RoomView {
  /** Names of all its sheets. */
  readonly sheets: readonly string[]
  readonly shown: number
  readonly sub: string
  readonly blocks: readonly RoomBlock[]
}

/** A mend that is being tried: nothing is kept yet, everything else that is asked is answered as if it were. */
export interface TrialAsked {
  readonly code: string
  readonly subject: string
  readonly mend: { readonly path: string; readonly value: string | number | boolean; readonly words: string }
}

export interface TrialAnswer {
  readonly answer: JobAnswer
  /** The finding's own verdict with it. */
  readonly verdict: Verdict
  readonly moneyDelta: number | null
  readonly currency: string
  /** By how many days the supply is ready later; null: one of the two days is not known. */
  readonly daysDelta: number | null
  /** It took a new plan: other choices may have moved along. */
  readonly planned: boolean
  /** Things that change. */
  readonly touched: readonly { readonly box: string; readonly id: string }[]
}

/** One input of a derivation: where the verdict turns on it. */
export interface TurningAnswer {
  readonly question: QuestionId
  readonly point: TurningPoint | null
  /** How many inputs there are. */
  readonly count: number
}

/** What a room's tag holds besides its findings. */
export interface RoomTagAnswer {
  readonly choices: readonly Choice[]
  readonly facts: readonly RoomFact[]
}

/** A value nobody told, or that nothing stands for: where it would be told, and by whom. */
export interface RoomFact {
  readonly path: string
  readonly said: string
  readonly source: string
  readonly firm: 'assumed' | 'unknown'
  readonly teller: Teller
}
export type Teller = 'utility' | 'customer' | 'surveyor' | 'shop' | 'maker' | 'weather'
/** A shop's folder: each of its files by its path in it. */
export interface ShopFolder {
  readonly name: string
  readonly files: Readonly<Record<string, Uint8Array>>
}

/** Never told without both its ends. */
export interface MoneySpan {
  readonly lowMoney: number
  readonly likelyMoney: number
  readonly highMoney: number
  /** Something has no price yet: it will not be less. */
  readonly isFloor: boolean
  readonly currency: string
}

/** What is asked before tax, in which one in ten of the counted draws of the cost lies below and above. */
export interface BudgetAnswer extends MoneySpan {
  /** Of the price; null: nobody told one, and this is what it costs. */
  readonly marginFrac: number | null
  readonly tax: { readonly name: string; readonly frac: number } | null
  readonly groups: readonly { readonly group: string; readonly money: number }[]
  readonly lacking: readonly string[]
}

/** What the tag of a call says of its first plan, beside the verdicts. */
export interface FirstAnswer {
  /** Null: nothing was laid out, or nothing of it has a price. */
  readonly budget: BudgetAnswer | null
  /** Day by whose evening everybody has answered whom the answer waits for; null: nobody can say. */
  readonly ringBack: { readonly day: string; readonly waitsFor: string; readonly who: string } | null
  /** Day on which all of it is live, everything as likely. */
  readonly live: string | null
}

export type RankedLine = Omit<Ranked, 'design' | 'findings'> & { readonly span: MoneySpan }

/** One task of the chain, as the day sheet lists it. */
export interface DayTask {
  readonly id: string
  readonly what: string
  readonly who: string
  /** Latest start, else the start that is likely. */
  readonly by: string | null
  readonly must: 'past' | 'today' | 'soon' | 'later' | 'done' | 'not known'
}

/** What the day sheet says of one job on one day. */
export interface DayAnswer {
  readonly title: string
  readonly invented: boolean
  readonly verdict: Verdict
  readonly ringBack: string | null
  /** Next step of the shop, where it comes up within the week. */
  readonly shop: { readonly verdict: Verdict; readonly task: DayTask } | null
  /** Tasks outside the shop whose latest start is past, today or within the week, the most urgent first. */
  readonly due: { readonly verdict: Verdict; readonly tasks: readonly DayTask[] } | null
  /** Findings that wait for somebody else's signature. */
  readonly sign: {
    readonly count: number
    readonly questions: readonly QuestionId[]
    readonly roles: readonly string[]
  } | null
}

/** A sheet of the book, as the list of sheets has it. */
export interface SheetLine {
  /** `reach-2`: the second sheet of its part. */
  readonly id: string
  /** Question, or part of the book. */
  readonly part: string
  readonly head: string
  readonly sub: string
}

export interface SheetsAnswer {
  readonly usualPaper: 'letter' | 'a4'
  readonly sheets: readonly SheetLine[]
}

export type PageAsked = { readonly sheet: string } & BookOptions

/** One sheet as it is set; sizes in millimetres of paper. */
export interface PageAnswer {
  readonly line: SheetLine
  readonly widthMm: number
  readonly heightMm: number
  readonly frame: Scene
  readonly keySides: readonly Scene[]
  readonly keyAt: { readonly leftMm: number; readonly topMm: number }
  readonly scale: string
  readonly key: boolean
  readonly caution: string
  /** Cells of the tag: the job, the rules, the issue. */
  readonly foot: { readonly words: string; readonly sizePt: number }
  readonly tag: readonly string[]
  readonly rules: string
  readonly issue: readonly string[]
  readonly blocks: readonly SetBlock[]
  /** Part of the book in which a working stands. */
  readonly partOf: Readonly<Record<string, string>>
  /** What a table of contents lists. */
  readonly contents: readonly SheetLine[]
}

export interface OfferAsked {
  /** By the clock of the page: the offer's date. */
  readonly day: string
  /** With the schedule of rent behind it. */
  readonly rent: boolean
  /** Null: the usual one of the place. */
  readonly paper: 'letter' | 'a4' | null
}

/** The offer as it prints, and what it says it was not told. */
export interface OfferAnswer {
  readonly paper: 'letter' | 'a4'
  /** There is a rent to be asked for. */
  readonly rents: boolean
  readonly notTold: readonly NotTold[]
  readonly pages: readonly PageAnswer[]
}

export type FileGroup = 'answers' | 'lists' | 'dates' | 'drawings'

/** A file that the job can be taken out as. */
export interface FileLine {
  /** What stands behind the job's name: `panel.csv`. */
  readonly kind: string
  readonly name: string
  readonly group: FileGroup
  /** Of a drawing: what it shows. */
  readonly title: string | null
}

/** What the page may ask of the worker, and what comes back. All but `open` ask about the job that was opened last. */
export interface Calls {
  /** Plans and assesses. */
  readonly open: { readonly asked: Given; readonly answer: Result<JobAnswer> }
  readonly sheet: { readonly asked: SheetAsked; readonly answer: GlassView | null }
  readonly thing: { readonly asked: { readonly box: string; readonly id: string }; readonly answer: ThingAnswer | null }
  readonly working: { readonly asked: { readonly ids: readonly string[] }; readonly answer: readonly WorkingBlock[] }
  /** One sheet of a question's room, laid out for the width there is. Null: the question has no figures. */
  readonly room: { readonly asked: RoomAsked; readonly answer: RoomView | null }
  readonly roomTag: { readonly asked: { readonly question: QuestionId }; readonly answer: RoomTagAnswer }
  /** The year of a box's air. Null: it was not run, and the findings say what it lacks. */
  readonly airRoom: { readonly asked: AirAsked; readonly answer: AirRoomView | null }
  readonly airMap: { readonly asked: AirMapAsked; readonly answer: AirMapView | null }
  /** Some days in every figure, and one hour of them: any week of the year is drawn when it is asked for. */
  readonly airHour: { readonly asked: AirHourAsked; readonly answer: AirHourView | null }
  readonly airReasons: { readonly asked: AirReasonsAsked; readonly answer: AirReasonsView | null }
  /** The year with other choices of air; from then on what `tried` means. Nothing is kept. */
  readonly airTry: { readonly asked: AirTryAsked; readonly answer: AirTryView | null }
  /** What other workers need of a box for pieces of work; null: of the first. */
  readonly remedyTask: { readonly asked: { readonly box: string | null }; readonly answer: RemedyTask | null }
  /** Asked of a worker that does pieces: which there are, a piece, the order of what pays, the table of what is done. */
  readonly remediesBegin: { readonly asked: RemedyTask; readonly answer: RemediesBegun }
  readonly remedyPart: {
    readonly asked: { readonly step: RemedyStep; readonly order: readonly string[] }
    readonly answer: RemedyPart | null
  }
  readonly remedyOrder: { readonly asked: { readonly alone: readonly RemedyPart[] }; readonly answer: readonly string[] }
  readonly remedyView: { readonly asked: RemedyViewAsked; readonly answer: RemedyView | null }
  /** The same of the design alone: which years there are, one of them, what all of them say. */
  readonly yearsBegin: { readonly asked: RemedyTask; readonly answer: YearsBegun }
  readonly yearPart: { readonly asked: { readonly year: number }; readonly answer: DesignYear | null }
  readonly yearsFound: { readonly asked: { readonly parts: readonly DesignYear[] }; readonly answer: YearsFound | null }
  /** The file of hours that stands for the year of this tab’s jobs; null: it is made. */
  readonly weatherGiven: { readonly asked: null; readonly answer: WeatherFileAsked | null }
  /** Asked of a worker that does pieces: a logger’s list beside the box, counted. */
  readonly loggerBeside: { readonly asked: LoggerAsked; readonly answer: LoggerAnswer }
  /** Headings and first rows of a logger’s list, for a person who says which column is what; null: no table. */
  readonly logTable: { readonly asked: LogTableAsked; readonly answer: LogTableView | null }
  /** What was found of the answer that stands, kept for its papers; and what was kept before. */
  readonly keepAir: { readonly asked: KeepAirAsked; readonly answer: boolean }
  readonly yearsKept: { readonly asked: { readonly box: string }; readonly answer: YearsView | null }
  /** From now on the hours of this file stand for the year of this tab's jobs; null: the made year again. */
  readonly weatherFile: { readonly asked: WeatherFileAsked | null; readonly answer: WeatherFileAnswer | null }
  /** Headings and first rows of a table, for a person who says which column is what; null: no table. */
  readonly weatherTable: { readonly asked: WeatherTableAsked; readonly answer: WeatherTableView | null }
  /** Tries a mend; `null` ends the trial. */
  readonly try: { readonly asked: TrialAsked | null; readonly answer: Result<TrialAnswer> | null }
  /** Where the verdict that rests on a derivation turns on its nth input; one a call, so that other calls are not kept waiting. */
  readonly turning: {
    readonly asked: { readonly working: string; readonly n: number }
    readonly answer: TurningAnswer | null
  }
  /** Reach of plugs at the end of cords of another length, in the design that stands. Light: asked at each frame of a drag. */
  readonly cords: {
    readonly asked: { readonly lengthM: Readonly<Record<string, number>> }
    readonly answer: readonly MovedCord[] | null
  }
  /** Two designs side by side. */
  readonly pair: { readonly asked: CompareAsked; readonly answer: PairAnswer | 'none' | null }
  /** What to write into the document when a machine was put elsewhere. */
  readonly stand: { readonly asked: StandAsked; readonly answer: readonly DocumentEdit[] | null }
  /** The answer a program reads: the bytes of `plugstead plan JOB --json`. */
  readonly json: { readonly asked: Given; readonly answer: string }
  /** Workings of a question as paper has them: those of one kind in one table. */
  readonly derivations: { readonly asked: { readonly question: QuestionId }; readonly answer: readonly SetBlock[] | null }
  readonly sheets: { readonly asked: { readonly reader: Reader | null }; readonly answer: SheetsAnswer | null }
  readonly page: { readonly asked: PageAsked; readonly answer: PageAnswer | null }
  /** What the typesetter reads: content and drawings of a book by path. */
  readonly book: { readonly asked: BookOptions; readonly answer: ReadonlyMap<string, string> | null }
  readonly offer: { readonly asked: OfferAsked; readonly answer: OfferAnswer | null }
  /** What the typesetter reads of it: what `plugstead offer` sets. */
  readonly offerBook: { readonly asked: OfferAsked; readonly answer: ReadonlyMap<string, string> | null }
  readonly files: { readonly asked: Record<string, never>; readonly answer: readonly FileLine[] | null }
  /** Its bytes: those that the terminal writes. */
  readonly file: { readonly asked: { readonly kind: string }; readonly answer: string | Uint8Array | null }
  /** Asked of the typesetter. Null: it is not on this device, and there is no network to bring it. */
  readonly typeset: { readonly asked: ReadonlyMap<string, string>; readonly answer: Uint8Array | null }
  /** The design that stands, to be handed to the judge. */
  readonly standing: { readonly asked: { readonly job: string }; readonly answer: Standing | null }
  /** Asked of the judge: what it judges from now on. */
  readonly heed: { readonly asked: Standing; readonly answer: true }
  /** Asked of the judge. Null: the change asks for another design, and only a plan can tell. */
  readonly judge: { readonly asked: JudgeAsked; readonly answer: JudgedNow | null }
  /** Changes of a document. Asked of the scribe, not of the engine: it computes nothing and is never stopped. */
  readonly edit: {
    readonly asked: { readonly text: string; readonly edits: readonly DocumentEdit[] }
    readonly answer: Result<string>
  }
  /** A document as it came in: its text when it can be read. Asked of the scribe. */
  readonly read: {
    readonly asked: { readonly file: string; readonly bytes: Uint8Array }
    readonly answer: Result<string>
  }
  /** From now on, the shop whose folder this is; null: the invented one. One that cannot be read answers everything with its problems. */
  readonly shop: { readonly asked: ShopFolder | null; readonly answer: Result<string> }
  /** Budget, ring-back and first day of the job that was opened last. */
  readonly first: { readonly asked: null; readonly answer: FirstAnswer | null }
  /** What would do for the job that was opened last, best first. `call`: the name by which the yard knows it. */
  readonly rank: { readonly asked: { readonly call: string }; readonly answer: readonly RankedLine[] | null }
  /** Lines of the day sheet. Leaves the job that is open as it is. */
  readonly day: {
    readonly asked: Given & { readonly today: string; readonly planned: Planned | null }
    readonly answer: Result<{ readonly answer: DayAnswer; readonly planned: Planned }>
  }
  /** The eleven questions of a call. Asked of the scribe. */
  readonly questions: { readonly asked: null; readonly answer: readonly CallQuestion[] }
  /** A job document from the answers of a call. Asked of the scribe. */
  readonly begin: {
    readonly asked: { readonly answers: CallAnswers; readonly days: CallDays }
    readonly answer: Result<string>
  }
}
export interface CompareAsked extends Omit<SheetAsked, 'side'> {
  /** `before`: what stood before the last act; else the name of a runner-up. Null or not there: the first of the choices. */
  readonly with: string | null
}

export type ComparedKey = 'cost' | 'ready' | 'service' | 'ways' | 'things' | 'openings' | 'clashes' | 'cord' | 'fails'

/** One of a pair. */
export interface Compared {
  readonly name: string
  readonly view: GlassView | null
  readonly verdicts: readonly { readonly id: QuestionId; readonly verdict: Verdict | 'not built' }[]
  /** Null: not known. */
  readonly facts: readonly { readonly key: ComparedKey; readonly value: number | string | null; readonly unit: string }[]
}

export interface PairAnswer {
  readonly choices: readonly string[]
  readonly with: string
  readonly left: Compared
  readonly right: Compared
}

/** Where a machine is put: cords by their plugs, and its bearing where it was moved in the yard. */
export interface StandAsked {
  readonly machine: string
  readonly lengthM: Readonly<Record<string, number>>
  readonly bearingDeg: number | null
}

export type CallName = keyof Calls

/** Answered beside the engine, at once. */
export type ScribeCall = 'edit' | 'read' | 'questions' | 'begin'
export type EngineCall = Exclude<CallName, ScribeCall | 'typeset'>

export type ToWorker = { [K in CallName]: { readonly id: number; readonly call: K; readonly asked: Calls[K]['asked'] } }[CallName]

export type FromWorker =
  /** Counted work of a call: pieces begun, and known of so far. */
  | { readonly id: number; readonly kind: 'work'; readonly begunCount: number; readonly knownCount: number }
  | { readonly id: number; readonly kind: 'answer'; readonly answer: unknown }
  /** Our mistake: the job is untouched. */
  | { readonly id: number; readonly kind: 'fault'; readonly code: string; readonly said: string }

export type { Problem }
