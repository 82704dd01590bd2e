import type { AirEnd } from '@plugstead/engine/air'
import type { Side } from '@plugstead/engine/job'
import { QUESTIONS, type QuestionId } from '@plugstead/engine/kernel'

/** Where a person is. The address holds all of it, so that a reload and a link come back to the same place. */
export type Route =
  | { readonly page: 'today' }
  | { readonly page: 'call' }
  | (AtJob & {
      readonly page: 'six sides'
      readonly box?: string
      readonly side?: Side | 'yard'
      readonly phase?: string
      readonly act?: HandAct
    })
  | (AtJob & { readonly page: 'room'; readonly question: QuestionId; readonly air?: AirAt })
  | (AtJob & { readonly page: 'rule' })
  | (AtJob & { readonly page: 'compare'; readonly with?: string })
  | (AtJob & { readonly page: 'paper'; readonly sheet?: string })

/** Which hours of the air of which box are shown. */
export interface AirAt {
  readonly box?: string
  readonly end?: AirEnd
  /** A short run; else days of the year. */
  readonly run?: string
  /** First hour of the days shown, and the chosen hour, of the year or of the short run. */
  readonly days?: { readonly fromH: number; readonly atH: number }
}

/** What the hand is doing with the chosen thing. */
export type HandAct = 'move' | 'move machine' | 'pin'
const ACTS: readonly HandAct[] = ['move', 'move machine', 'pin']

interface AtJob {
  readonly job: string
  /** What is chosen: a box and a thing in it. */
  readonly thing?: { readonly box: string; readonly id: string }
  /** Working that is unfolded. */
  readonly working?: string
}

export type JobRoute = Exclude<Route, { page: 'today' | 'call' }>

/** Opened first. */
export const EXAMPLE = 'groomer-yard-us'

export function routeOf(hash: string): Route {
  const [path = '', query = ''] = hash.replace(/^#\/?/, '').split('?')
  const [head = '', job = '', page = '', ...rest] = path.split('/').map(decodeURIComponent)
  if (head === 'today') return { page: 'today' }
  if (head === 'call') return { page: 'call' }
  const asked = new URLSearchParams(query)
  const thing = asked.get('thing')
  const working = asked.get('working')
  const at: AtJob = {
    job: head === 'job' && job !== '' ? job : EXAMPLE,
    ...(thing === null ? {} : { thing: { box: asked.get('box') ?? '', id: thing } }),
    ...(working === null ? {} : { working }),
  }
  if (page === 'room') {
    const question = QUESTIONS.find((id) => id === rest[0])
    const air = question === 'air' ? airOf(asked) : null
    if (question !== undefined) return { page: 'room', question, ...at, ...(air === null ? {} : { air }) }
  }
  if (page === 'rule') return { page: 'rule', ...at }
  if (page === 'compare') return { page: 'compare', ...at, ...(rest[0] === undefined ? {} : { with: rest[0] }) }
  if (page === 'paper') return { page: 'paper', ...at, ...(rest[0] === undefined ? {} : { sheet: rest[0] }) }
  const [box, side] = page === 'box' ? rest : []
  const act = ACTS.find((one) => one === asked.get('act'))
  const phase = asked.get('phase')
  return {
    ...{ page: 'six sides', ...at, ...(box === undefined ? {} : { box }), ...(isSide(side) ? { side } : {}) },
    ...(phase === null ? {} : { phase }),
    ...(act === undefined || thing === null ? {} : { act }),
  }
}

/** Null: nothing is chosen, or nothing that can be read. */
function airOf(asked: URLSearchParams): AirAt | null {
  const [box, end, run] = ['air', 'end', 'run'].map((key) => asked.get(key))
  const [fromH, atH] = ['from', 'hour'].map((key) => {
    const text = asked.get(key) ?? ''
    return /^\d{1,5}$/.test(text) ? Number(text) : null
  })
  const air = {
    ...(box == null ? {} : { box }),
    ...(end === 'tight' || end === 'leaky' ? { end: end as AirEnd } : {}),
    ...(run == null ? {} : { run }),
    ...(fromH == null || atH == null ? {} : { days: { fromH, atH } }),
  }
  return Object.keys(air).length === 0 ? null : air
}

function setAir(asked: URLSearchParams, { box, end, run, days }: AirAt): void {
  if (box !== undefined) asked.set('air', box)
  if (end !== undefined) asked.set('end', end)
  if (run !== undefined) asked.set('run', run)
  if (days === undefined) return
  asked.set('from', String(days.fromH))
  asked.set('hour', String(days.atH))
}

const SIDES: readonly Side[] = ['left', 'right', 'blind end', 'door end', 'roof', 'floor']
const isSide = (word: string | undefined): word is Side | 'yard' => word === 'yard' || SIDES.some((side) => side === word)

export function hashOf(route: Route): string {
  if (route.page === 'today' || route.page === 'call') return `#/${route.page}`
  const words = ['job', route.job, ...placeOf(route)].map(encodeURIComponent)
  const asked = new URLSearchParams()
  if (route.thing !== undefined) {
    asked.set('box', route.thing.box)
    asked.set('thing', route.thing.id)
  }
  if (route.working !== undefined) asked.set('working', route.working)
  if (route.page === 'room' && route.air !== undefined) setAir(asked, route.air)
  if (route.page === 'six sides' && route.phase !== undefined) asked.set('phase', route.phase)
  if (route.page === 'six sides' && route.act !== undefined) asked.set('act', route.act)
  return `#/${words.join('/')}${asked.size === 0 ? '' : `?${asked}`}`
}

function placeOf(route: JobRoute): readonly string[] {
  if (route.page === 'room') return ['room', route.question]
  if (route.page === 'rule') return ['rule']
  if (route.page === 'compare') return ['compare', ...(route.with === undefined ? [] : [route.with])]
  if (route.page === 'paper') return ['paper', ...(route.sheet === undefined ? [] : [route.sheet])]
  return route.box === undefined ? [] : ['box', route.box, ...(route.side === undefined ? [] : [route.side])]
}

/** One level back, the same thing still chosen until it is itself what is folded. */
export function folded(route: Route): Route {
  if (route.page === 'today' || route.page === 'call') return { page: 'today' }
  const { working, ...open } = route
  if (working !== undefined) return open
  if (open.page === 'six sides' && open.act !== undefined) {
    const { act: _act, ...still } = open
    return still
  }
  const { thing, ...bare } = open
  if (open.page === 'six sides') {
    if (open.side !== undefined) {
      const { side: _side, ...net } = open
      return net
    }
    return thing === undefined ? { page: 'today' } : bare
  }
  if (open.page === 'room' && thing !== undefined) return bare
  if (open.page === 'paper' && open.sheet !== undefined) {
    const { sheet: _sheet, ...list } = open
    return list
  }
  return { page: 'six sides', job: open.job, ...(thing === undefined ? {} : { thing }) }
}
