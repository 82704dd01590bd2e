import type { MovedCord } from '@plugstead/engine/power'
import type { Engine } from '../engine/client.ts'
import type { GlassView, MachineLine, MachineView, SideView, ThingLine } from '../worker/protocol.ts'
import { pointOfStand, type Stand, standAt, stoodFurther } from './in-yard.ts'
import type { Way } from './nearest.ts'
import { type Place, placeAt, pointOf, type StepLength, sideUnder, stepped } from './on-side.ts'
import { clearPaint, paintMachine, paintThing } from './paint.ts'

export type Moving =
  | { readonly kind: 'thing'; readonly line: ThingLine; readonly from: Place; readonly place: Place }
  | { readonly kind: 'machine'; readonly line: MachineLine; readonly view: MachineView; readonly stand: Stand }

/** What the hand has in it, and what reach says of it so far. */
export interface InHand {
  readonly moving: Moving
  /** Of a machine: for the cords as they lay when it was asked; null until the first answer. */
  readonly reach: readonly MovedCord[] | null
  /** The answer is for the cords as they lie now. */
  readonly fresh: boolean
  /** It lies where it was put, until the engine has answered. */
  readonly put: boolean
}

/**
 * A thing or a machine in the hand: it follows the finger at each frame, drawn past React, and the light question of its cords is asked again as soon
 * as the last is answered. Nothing is written before it is put down.
 */
export class Hand {
  readonly #engine: Engine
  #frame: HTMLElement | null = null
  #view: GlassView | null = null
  #now: InHand | null = null
  #due = 0
  #asking = false
  readonly #listeners = new Set<() => void>()

  constructor(engine: Engine) {
    this.#engine = engine
  }

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener)
    return () => this.#listeners.delete(listener)
  }

  readonly now = (): InHand | null => this.#now

  /** The drawing that is shown. What was put down is let go: the drawing has it now. */
  show(frame: HTMLElement | null, view: GlassView | null): void {
    if (view === this.#view && frame === this.#frame) return
    if (this.#frame !== null) clearPaint(this.#frame)
    this.#frame = frame
    this.#view = view
    const now = this.#now
    if (now === null) return
    if (now.put) {
      this.#set(null)
      return
    }
    // Laid out anew under the hand: a machine is found again where it is drawn now.
    const { moving } = now
    const drawn = moving.kind === 'machine' ? view?.machines.find((m) => m.id === moving.line.id) : undefined
    if (moving.kind === 'machine' && drawn !== undefined) this.#now = { ...now, moving: { ...moving, view: drawn } }
    this.#again()
  }

  takeThing(line: ThingLine): boolean {
    if (line.place === null || this.#view === null) return false
    if (this.#frame !== null) clearPaint(this.#frame)
    const from: Place = { side: line.side, alongM: line.place.alongM, upM: line.place.upM }
    this.#set({ moving: { kind: 'thing', line, from, place: from }, reach: null, fresh: true, put: false })
    return true
  }

  takeMachine(line: MachineLine): boolean {
    const view = this.#view?.machines.find((m) => m.id === line.id)
    if (view === undefined) return false
    if (this.#frame !== null) clearPaint(this.#frame)
    const stand: Stand = { machine: line.id, lengthM: line.lengthM, bearingDeg: null }
    this.#set({ moving: { kind: 'machine', line, view, stand }, reach: null, fresh: false, put: false })
    this.#again()
    return true
  }

  /** Its middle brought to a point of the drawing. */
  to(x: number, y: number): void {
    const moving = this.#now?.moving
    if (moving === undefined || this.#view === null) return
    if (moving.kind === 'machine') this.#move({ ...moving, stand: standAt(moving.line, moving.view, x, y) })
    else {
      const side = sideUnder(this.#view.sides, x, y) ?? this.#side(moving.place)
      if (side !== undefined) this.#move({ ...moving, place: placeAt(side, x, y) })
    }
  }

  step(way: Way, length: StepLength): void {
    const moving = this.#now?.moving
    if (moving === undefined) return
    if (moving.kind === 'machine')
      this.#move({ ...moving, stand: stoodFurther(moving.line, moving.view, moving.stand, way, length !== 'rib') })
    else {
      const side = this.#side(moving.place)
      if (side !== undefined) this.#move({ ...moving, place: stepped(side, moving.place, way, length) })
    }
  }

  /** Put down where it is: drawn there until the engine has answered. */
  putDown(): Moving | null {
    if (this.#now === null) return null
    this.#set({ ...this.#now, put: true })
    return this.#now.moving
  }

  leave(): void {
    if (this.#frame !== null) clearPaint(this.#frame)
    if (this.#now !== null) this.#set(null)
  }

  #side(place: Place): SideView | undefined {
    return this.#view?.sides.find((s) => s.side === place.side)
  }

  #move(moving: Moving): void {
    if (this.#now === null || this.#now.put) return
    this.#now = { ...this.#now, moving, fresh: moving.kind === 'thing' }
    this.#again()
  }

  /** At the next frame, once however often it moved. */
  #again(): void {
    if (this.#due !== 0) return
    this.#due = requestAnimationFrame(() => {
      this.#due = 0
      this.#paint()
      this.#tell()
      void this.#ask()
    })
  }

  #paint(): void {
    const moving = this.#now?.moving
    if (moving === undefined || this.#frame === null || this.#view === null) return
    if (moving.kind === 'machine') {
      const to = pointOfStand(moving.line, moving.view, moving.stand)
      paintMachine(this.#frame, moving.line, moving.view, to)
      return
    }
    const [was, is] = [this.#side(moving.from), this.#side(moving.place)]
    if (was === undefined || is === undefined) return
    const [a, b] = [pointOf(was, moving.from), pointOf(is, moving.place)]
    paintThing(this.#frame, moving.line, [b[0] - a[0], b[1] - a[1]])
  }

  async #ask(): Promise<void> {
    const moving = this.#now?.moving
    if (moving?.kind !== 'machine' || this.#asking || this.#now?.fresh === true) return
    this.#asking = true
    const { lengthM } = moving.stand
    const reach = await this.#engine.call('cords', { lengthM }).catch(() => null)
    this.#asking = false
    const still = this.#now?.moving
    if (this.#now === null || still?.kind !== 'machine' || still.line.id !== moving.line.id || reach === null) return
    const fresh = JSON.stringify(still.stand.lengthM) === JSON.stringify(lengthM)
    this.#set({ ...this.#now, reach, fresh })
    if (!fresh) void this.#ask()
  }

  #set(now: InHand | null): void {
    this.#now = now
    this.#tell()
  }

  #tell(): void {
    for (const listener of this.#listeners) listener()
  }
}
