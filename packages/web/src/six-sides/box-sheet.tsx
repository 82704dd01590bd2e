import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import { useAsked } from '../ask.ts'
import { useBench, useJob } from '../bench.ts'
import { useAnatomy } from '../hands/anatomy.ts'
import { usePreferences } from '../hands/preferences.ts'
import type { JobRoute } from '../route.ts'
import { fold, goTo, turnTo } from '../where.ts'
import { useWords } from '../words/index.ts'
import type { BoxAnswer, SheetAsked, ThingLine } from '../worker/protocol.ts'
import { Find } from './find.tsx'
import { Foot } from './foot.tsx'
import { Hand, type Moving } from './hand.ts'
import { Hatches } from './hatches.tsx'
import { nearestThatWay, type Way } from './nearest.ts'
import { sideUnder } from './on-side.ts'
import { useProposed } from './proposed.ts'
import { Scene } from './scene.tsx'
import { ThingsList } from './things-list.tsx'
import { useKept } from './use-kept.ts'
import { type Hit, hitAt, usePointer } from './use-pointer.ts'
import { usePut } from './use-put.ts'
import { useFocusOn, useRoom } from './use-room.ts'
import { YardTable } from './yard-table.tsx'

type SixSides = Extract<JobRoute, { page: 'six sides' }>

const ARROWS: Readonly<Record<string, Way>> = { ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down' }
/** A side on a phone is drawn so large that its letters stand apart, and slides under the finger. */
const PHONE_LEAST_PX = 920

/** The box: all six sides as a net, one of them unfolded, or the box folded in its yard. The drawing, and over it a real list of buttons. */
export function BoxSheet({ route, answer }: { readonly route: SixSides; readonly answer: BoxAnswer }) {
  const { now, session } = useJob()
  const { engine } = useBench()
  const words = useWords()
  const { units, gloves, letterKeys } = usePreferences()
  const phone = useAnatomy() === 'phone'
  const frame = useRef<HTMLDivElement>(null)
  const room = useRoom(frame)
  const side = route.side ?? (phone ? 'left' : null)
  const phase = route.phase ?? answer.phases[0]
  const asked: SheetAsked | null =
    room === null
      ? null
      : {
          ...{ box: answer.box, side, units, letterPx: 13, ...(phase === undefined ? {} : { phase }), ...room },
          widthPx: phone ? Math.max(room.widthPx, PHONE_LEAST_PX) : room.widthPx,
        }
  const laidOut = useAsked('sheet', asked)
  const view = useKept(laidOut, asked, session, now.stale)
  const proposed = useProposed(answer.box)
  const [finding, setFinding] = useState(false)
  const lines = useMemo(() => new Map(answer.things.map((line) => [line.id, line])), [answer])
  const machines = useMemo(() => answer.machines.filter((m) => m.phase === phase), [answer, phase])
  const chosen = route.thing?.box === answer.box ? route.thing.id : null
  const dyed = useMemo(
    () =>
      new Set([
        ...(chosen === null ? [] : [chosen]),
        ...machines.flatMap((m) => (chosen !== null && m.things.includes(chosen) ? [m.drawnAs.sign, ...m.drawnAs.cords] : [])),
      ]),
    [chosen, machines],
  )
  const hand = useMemo(() => new Hand(engine), [engine])
  const write = usePut()

  const choose = useCallback(
    (name: string) => {
      const machine = name.startsWith('machine ') ? machines.find((m) => `machine ${m.id}` === name) : undefined
      const id = machine === undefined ? name : nextOf(machine.things, chosen)
      const line = lines.get(id)
      if (line === undefined) return
      // Chosen again: it unfolds to the side it hangs on.
      if (id === chosen) {
        if (route.side === undefined && machine === undefined) goTo({ ...route, box: answer.box, side: line.side })
        return
      }
      const seen = machine !== undefined || route.side === undefined || route.side === line.side
      turnTo({ ...route, thing: { box: answer.box, id }, ...(seen ? {} : { box: answer.box, side: line.side }) })
    },
    [answer.box, chosen, lines, machines, route],
  )
  const pin = (line: ThingLine) => turnTo({ ...route, thing: { box: answer.box, id: line.id }, act: 'pin' })

  useFocusOn(frame, chosen, view)
  useLayoutEffect(() => hand.show(frame.current, view ?? null), [hand, view])
  useTaken(hand, route, view != null, lines, machines)

  const still = (): SixSides => {
    const { act: _act, ...rest } = route
    return rest
  }
  const leave = useCallback(() => {
    hand.leave()
    const { act: _act, ...rest } = route
    if (route.act !== undefined) turnTo(rest)
  }, [hand, route])
  const put = useCallback(
    (moving: Moving | null) => {
      if (moving === null) return
      const { act: _act, ...rest } = route
      if (route.act !== undefined) turnTo(rest)
      void write(moving).then((done) => done || hand.leave())
    },
    [write, hand, route],
  )

  const onKeyDown = (event: React.KeyboardEvent) => {
    const { key } = event
    if (event.target instanceof HTMLInputElement) return
    const way = ARROWS[key]
    const inHand = hand.now()?.put === false
    if (inHand && (way !== undefined || key === 'Enter' || key === 'Escape')) {
      if (event.target instanceof HTMLButtonElement && key === 'Enter' && event.target.dataset.choose === undefined) return
      event.preventDefault()
      if (way !== undefined) hand.step(way, event.ctrlKey ? '1 mm' : event.shiftKey ? '10 mm' : 'rib')
      else if (key === 'Enter') put(hand.putDown())
      else leave()
      return
    }
    const all =
      view === undefined || view === null ? [] : [...view.things, ...view.machines.map((m) => ({ ...m, id: `machine ${m.id}` }))]
    const focused = event.target instanceof HTMLElement ? event.target.dataset.choose : undefined
    const from = all.find((t) => t.id === (focused ?? chosen)) ?? all.find((t) => t.id === chosen)
    if (way !== undefined && view) {
      event.preventDefault()
      const next = from === undefined ? all[0] : nearestThatWay(all, from, way)
      if (next) {
        choose(next.id)
        frame.current?.querySelector<HTMLElement>(`[data-choose="${CSS.escape(next.id)}"]`)?.focus()
      }
    } else if (key === 'Escape') fold()
    else if (!letterKeys || event.ctrlKey || event.metaKey) return
    else if (key === '/') {
      event.preventDefault()
      setFinding(true)
    } else if (key === '[' || key === ']') {
      const next = notHolding(answer.things, chosen, key === ']' ? 1 : -1)
      if (next !== null) choose(next.id)
    } else if (key === 'm' && chosen !== null) {
      const ofMachine = route.side === 'yard' || focused?.startsWith('machine ') === true
      // At once, so that the next key already moves it.
      take(hand, ofMachine ? 'move machine' : 'move', chosen, lines, machines)
      turnTo({ ...route, act: ofMachine ? 'move machine' : 'move' })
    } else if (key === 'p' && chosen !== null && lines.get(chosen)?.place != null) {
      event.preventDefault()
      turnTo({ ...route, act: 'pin' })
    }
  }

  const at = (event: React.MouseEvent): readonly [number, number] | null => {
    const place = frame.current?.querySelector('.drawing svg')?.getBoundingClientRect()
    return place === undefined ? null : [event.clientX - place.left, event.clientY - place.top]
  }
  const hit = (x: number, y: number) => (view ? hitAt(view, answer, machines, x, y, gloves) : null)
  const idOf = (one: Hit): string => (one.kind === 'machine' ? `machine ${one.line.id}` : one.line.id)
  const { wasDrag, ...pointer } = usePointer({
    ...{ hand, at, hit, gloves, pin, put: (moving) => put(moving) },
    isChosen: (one) => chosen !== null && (one.kind === 'machine' ? one.line.things.includes(chosen) : one.line.id === chosen),
    choose: (one) => choose(idOf(one)),
  })

  const onClick = (event: React.MouseEvent) => {
    const point = !view || event.detail === 0 || wasDrag(event) ? null : at(event)
    if (point === null || !view) return
    if (hand.now()?.put === false) {
      hand.to(...point)
      put(hand.putDown())
      return
    }
    const found = hit(...point)
    if (found !== null) return choose(idOf(found.hit))
    const on = sideUnder(view.sides, ...point)
    if (on !== undefined && route.side === undefined && !phone) goTo({ ...still(), box: answer.box, side: on.side })
  }

  const counts = (verdict: ThingLine['verdict']): number => answer.things.filter((t) => t.verdict === verdict).length
  const acting = route.act === 'move' || route.act === 'move machine'
  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: touches between the buttons mean the nearest of them; keys act on the buttons inside */}
      <div
        ref={frame}
        className={`box-sheet${now.stale ? ' stale' : ''}${acting ? ' acting' : ''}`}
        onKeyDown={onKeyDown}
        onClick={onClick}
        {...pointer}
      >
        {view ? (
          <div className="drawing" style={{ width: view.widthPx, height: view.heightPx }}>
            <svg
              className="drawn"
              width={view.widthPx}
              height={view.heightPx}
              role="img"
              aria-label={`${view.said} ${words.sheet.counts(answer.things.length, counts('fails'), counts('tight'), counts('unknown'))}`}
            >
              <Hatches />
              <Scene view={view} dyed={dyed} proposed={proposed} />
            </svg>
            {/* What is in the hand is drawn on these, past React. */}
            <svg className="cord-layer" width={view.widthPx} height={view.heightPx} aria-hidden="true">
              <path />
            </svg>
            <svg className="hand-layer" width={view.widthPx} height={view.heightPx} aria-hidden="true">
              <g className="scene" transform={`scale(${view.pxPerMm})`} />
            </svg>
            <ThingsList {...{ view, lines, machines, chosen, choose, units }} />
          </div>
        ) : (
          <p className="quiet">{words.states.reading}</p>
        )}
        {finding ? <Find things={answer.things} choose={choose} done={() => setFinding(false)} /> : null}
      </div>
      <Foot
        hand={hand}
        chosen={chosen === null ? null : (lines.get(chosen) ?? null)}
        acting={acting}
        put={() => put(hand.putDown())}
        leave={leave}
      />
      {side === 'yard' ? <YardTable machines={machines} choose={(id) => choose(`machine ${id}`)} /> : null}
    </>
  )
}

/** A machine's outlets take turns. */
function nextOf(things: readonly string[], chosen: string | null): string {
  const at = chosen === null ? -1 : things.indexOf(chosen)
  return things[(at + 1) % things.length] ?? ''
}

/** Takes in hand what a word or a key asked to move, once it is drawn. */
function useTaken(
  hand: Hand,
  { act, thing }: SixSides,
  drawn: boolean,
  lines: ReadonlyMap<string, ThingLine>,
  machines: BoxAnswer['machines'],
): void {
  useEffect(() => {
    if (!drawn || thing === undefined || (act !== 'move' && act !== 'move machine')) {
      if (act === undefined && hand.now()?.put === false) hand.leave()
      return
    }
    if (hand.now() !== null) return
    take(hand, act, thing.id, lines, machines)
  }, [hand, act, thing, drawn, lines, machines])
}

function take(
  hand: Hand,
  act: 'move' | 'move machine',
  id: string,
  lines: ReadonlyMap<string, ThingLine>,
  machines: BoxAnswer['machines'],
): void {
  const line = lines.get(id)
  const machine = machines.find((m) => m.things.includes(id))
  if (act === 'move' && line !== undefined) hand.takeThing(line)
  if (act === 'move machine' && machine !== undefined) hand.takeMachine(machine)
}

function notHolding(things: readonly ThingLine[], from: string | null, step: 1 | -1): ThingLine | null {
  const open = things.filter((t) => t.verdict !== null && t.verdict !== 'holds')
  if (open.length === 0) return null
  const at = open.findIndex((t) => t.id === from)
  return open[at < 0 ? (step === 1 ? 0 : open.length - 1) : (at + step + open.length) % open.length] ?? null
}
