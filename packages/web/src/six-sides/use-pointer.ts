import type React from 'react'
import { useRef } from 'react'
import { reachPx } from '../hands/glass.ts'
import type { BoxAnswer, GlassView, MachineLine, ThingLine } from '../worker/protocol.ts'
import type { Hand, Moving } from './hand.ts'
import { touched } from './nearest.ts'

const HOLD_MS = 600
const STILL_PX = 6

export type Hit = { readonly kind: 'thing'; readonly line: ThingLine } | { readonly kind: 'machine'; readonly line: MachineLine }

interface Pressed {
  readonly hit: Hit
  readonly x: number
  readonly y: number
  /** From the pointer to the middle of what it took. */
  readonly toMiddle: readonly [number, number]
  readonly timer: ReturnType<typeof setTimeout> | null
  dragging: boolean
}

/** What a point of the drawing means: a thing or a machine, the nearest within reach of a mouse, a finger or a glove. */
export function hitAt(
  view: GlassView,
  answer: BoxAnswer,
  machines: readonly MachineLine[],
  x: number,
  y: number,
  gloves: boolean,
) {
  const all = [
    ...view.things.map((place) => ({ ...place, kind: 'thing' as const })),
    ...view.machines.map((place) => ({ ...place, kind: 'machine' as const })),
  ]
  const found = touched(all, x, y, reachPx(gloves))
  if (found === null) return null
  const middle = [found.x + found.w / 2, found.y + found.h / 2] as const
  if (found.kind === 'machine') {
    const line = machines.find((m) => m.id === found.id)
    return line === undefined ? null : { hit: { kind: 'machine', line } as Hit, middle }
  }
  const line = answer.things.find((t) => t.id === found.id)
  return line === undefined ? null : { hit: { kind: 'thing', line } as Hit, middle }
}

/** Drag and hold. With gloves there is neither; a finger drags only what is chosen, so that the sheet still slides under it. */
export function usePointer(given: {
  readonly hand: Hand
  readonly at: (event: React.PointerEvent) => readonly [number, number] | null
  readonly hit: (x: number, y: number) => ReturnType<typeof hitAt>
  readonly gloves: boolean
  readonly isChosen: (hit: Hit) => boolean
  readonly choose: (hit: Hit) => void
  readonly pin: (line: ThingLine) => void
  readonly put: (moving: Moving) => void
}) {
  const pressed = useRef<Pressed | null>(null)
  /** A drag ends with a click that means nothing. */
  const dragged = useRef(false)
  const down = useRef<readonly [number, number]>([0, 0])
  const end = (): Pressed | null => {
    const was = pressed.current
    if (was?.timer != null) clearTimeout(was.timer)
    pressed.current = null
    return was
  }
  return {
    onPointerDown: (event: React.PointerEvent) => {
      dragged.current = false
      down.current = [event.clientX, event.clientY]
      const at =
        given.gloves || event.button !== 0 || !event.isPrimary || given.hand.now()?.put === false ? null : given.at(event)
      if (at === null) return
      const found = given.hit(...at)
      if (found === null || (event.pointerType !== 'mouse' && !given.isChosen(found.hit))) return
      const [x, y] = at
      const { hit } = found
      const held = (): void => {
        pressed.current = null
        dragged.current = true
        if (hit.kind === 'thing') given.pin(hit.line)
      }
      const timer = hit.kind === 'thing' && hit.line.place !== null ? setTimeout(held, HOLD_MS) : null
      pressed.current = { hit, x, y, toMiddle: [found.middle[0] - x, found.middle[1] - y], timer, dragging: false }
    },
    onPointerMove: (event: React.PointerEvent) => {
      const was = pressed.current
      const at = was === null ? null : given.at(event)
      if (was === null || at === null) return
      const [x, y] = at
      if (!was.dragging) {
        if (Math.hypot(x - was.x, y - was.y) < STILL_PX) return
        if (was.timer !== null) clearTimeout(was.timer)
        const taken = was.hit.kind === 'thing' ? given.hand.takeThing(was.hit.line) : given.hand.takeMachine(was.hit.line)
        if (!taken) return void end()
        was.dragging = true
        event.currentTarget.setPointerCapture(event.pointerId)
      }
      given.hand.to(x + was.toMiddle[0], y + was.toMiddle[1])
    },
    onPointerUp: () => {
      const was = end()
      if (was === null || !was.dragging) return
      dragged.current = true
      const moving = given.hand.putDown()
      if (!given.isChosen(was.hit)) given.choose(was.hit)
      if (moving !== null) given.put(moving)
    },
    onPointerCancel: () => {
      if (end()?.dragging === true) given.hand.leave()
    },
    /** Is the click that comes now the end of a drag, a hold or a stroke over the sheet? */
    wasDrag: (event: React.MouseEvent): boolean =>
      dragged.current || Math.hypot(event.clientX - down.current[0], event.clientY - down.current[1]) > STILL_PX * 2,
  }
}
