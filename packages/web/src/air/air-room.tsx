import type { MapQuantity } from '@plugstead/drawings'
import type { AirChoice } from '@plugstead/engine/job'
import { THIN } from '@plugstead/engine/kernel'
import { useRef, useState } from 'react'
import { usePreferences } from '../hands/preferences.ts'
import { OneOf } from '../marks/one-of.tsx'
import { LETTER_PX, useWidth } from '../rooms/use-width.ts'
import type { JobRoute } from '../route.ts'
import { useWords } from '../words/index.ts'
import type { AirRoomView, MomentView } from '../worker/air/types.ts'
import { DAY_H, WEEK_H, weekAround } from './clock.ts'
import { Days } from './days.tsx'
import { Drips, Shorts } from './lists.tsx'
import { BesideLogger } from './logger.tsx'
import { Picture } from './picture.tsx'
import { WhatEachBuys } from './remedies.tsx'
import { ThirtyYears } from './thirty-years.tsx'
import { useAir } from './use-air.ts'
import { type Here, hereOf, useAt } from './use-at.ts'
import { useTrial } from './use-trial.ts'
import { placesOf } from './vent-pins.ts'
import { VentActs, Vents, type VentTrial } from './vents.tsx'
import { WeatherUsed } from './weather.tsx'
import { WhatIf } from './what-if.tsx'
import { Ink, Months, YearMap } from './year.tsx'

/** Narrower than this the section lies below the faces. */
const BESIDE_PX = 860
const GAP_PX = 16
/** Narrower a drawing’s words would lie on each other: it is then moved under the finger. */
const LEAST_PX = 500
const LEAST_PAGE_PX = 240
const LEAST_DAYS_PX = 640

/** The year of a box: map, chosen days, chosen hour, what if, how it came about, what drips, short runs, weather, what each measure buys. */
export function AirRoom({ route }: { readonly route: Extract<JobRoute, { page: 'room' }> }) {
  const words = useWords()
  const { units, gloves } = usePreferences()
  const frame = useRef<HTMLDivElement>(null)
  // A page that is just being laid out may be narrower than any picture.
  const frameWidthPx = useWidth(frame)
  const widthPx = frameWidthPx === null ? null : Math.max(frameWidthPx, LEAST_PAGE_PX)
  const { air, step, jump, toBox, toEnd } = useAt(route)
  const { box = null, end = null } = air
  const [quantity, setQuantity] = useState<MapQuantity>('roofGPerM2')
  const [look, setLook] = useState<'stands' | 'tried'>('tried')
  const trying = useTrial(box)
  const tried = trying.answer?.is === 'answer'
  const of = tried && look === 'tried' ? ('tried' as const) : ('stands' as const)
  const asked = { box, end }
  const heard = useAir('airRoom', widthPx === null ? null : { ...asked, of }, trying.n)
  const room = heard?.answer ?? null
  const here = room === null ? null : (hereOf(air, room, WEEK_H) ?? firstLook(room))
  const glass = { units, letterPx: LETTER_PX }
  const beside = widthPx !== null && widthPx >= BESIDE_PX
  const besidePx = widthPx === null ? 0 : beside ? Math.floor((widthPx - GAP_PX) / 2) : Math.max(widthPx, LEAST_PX)
  const map = useAir('airMap', room === null || widthPx === null ? null : { ...asked, ...glass, of, quantity, widthPx }, trying.n)
  const hourAsked =
    room === null || here === null || widthPx === null
      ? null
      : { ...asked, ...glass, ...here, besidePx, widthPx: Math.max(widthPx, LEAST_DAYS_PX) }
  const hour = useAir('airHour', hourAsked === null ? null : { ...hourAsked, of }, trying.n)
  const other = useAir(
    'airHour',
    hourAsked === null || !tried ? null : { ...hourAsked, of: of === 'tried' ? 'stands' : 'tried' },
    trying.n,
  )
  const reasons = useAir('airReasons', room === null || widthPx === null ? null : { ...asked, ...glass, of, widthPx }, trying.n)
  const view = hour?.answer ?? null
  const standing = (name: AirChoice): string => String(room?.choices.find((c) => c.name === name)?.value ?? 'no')
  const takeVents = (name: 'vents' | 'vent-places', value: string): void => {
    const { [name]: _gone, ...rest } = trying.pins
    trying.set(value === standing(name) ? rest : { ...rest, [name]: value })
    setLook('tried')
  }
  const vents: VentTrial = {
    vents: view?.vents ?? [],
    places: placesOf(trying.pins['vent-places']),
    size: trying.pins.vents ?? standing('vents'),
    triedPlaces: trying.pins['vent-places'] !== undefined,
    triedSize: trying.pins.vents !== undefined,
    takePlaces: (value) => takeVents('vent-places', value),
    takeSize: (value) => takeVents('vents', value),
  }
  const toWeek = (fromH: number): void => {
    if (room === null) return
    const offset = here?.pick.kind === 'week' ? here.atH - here.pick.fromH : 12
    step({
      pick: { kind: 'week', fromH },
      atH: Math.min(room.hoursCount - 1, fromH + Math.max(0, Math.min(WEEK_H - 1, offset))),
    })
  }
  const toHour = (atH: number): void => {
    if (room !== null) jump({ pick: { kind: 'week', fromH: weekAround(room.hoursCount, room.firstHour, atH) }, atH })
  }
  const toMoment = ({ atH, fromH }: MomentView): void => jump({ pick: { kind: 'week', fromH }, atH })
  /** An hour of the days shown; beyond the ends of a week the next day comes in. */
  const toHourOfDays = (n: number): void => {
    if (room === null || here === null || view === null) return
    if (here.pick.kind === 'short') {
      step({ ...here, atH: Math.max(0, Math.min(view.hoursCount - 1, n)) })
      return
    }
    const atH = Math.max(0, Math.min(room.hoursCount - 1, here.pick.fromH + n))
    const last = Math.max(0, room.hoursCount - WEEK_H)
    const { fromH } = here.pick
    const next = atH < fromH ? Math.max(0, fromH - DAY_H) : atH >= fromH + WEEK_H ? Math.min(last, fromH + DAY_H) : fromH
    step({ pick: { kind: 'week', fromH: next }, atH })
  }
  const toFrame = (id: string): void => {
    const head = document.getElementById(id)
    head?.scrollIntoView({ block: 'start' })
    head?.focus({ preventScroll: true })
  }
  const hourOfDays = here === null || view === null ? 0 : here.pick.kind === 'short' ? here.atH : here.atH - view.fromH
  return (
    <div ref={frame} className="room-sheets air-room">
      {heard === undefined ? (
        <p className="quiet">{words.states.reading}</p>
      ) : room === null ? (
        <>
          <p>{words.air.notRun}</p>
          {widthPx === null ? null : <BesideLogger box={box} place={null} widthPx={widthPx} />}
          <h3>{words.air.weather}</h3>
          <WeatherUsed weather={null} />
        </>
      ) : (
        <>
          {room.boxes.length < 2 ? null : (
            <OneOf title={words.air.box} of={Object.fromEntries(room.boxes.map((b) => [b, b]))} now={room.box} take={toBox} />
          )}
          <OneOf title={words.air.end} of={words.air.endWords} now={room.end} take={toEnd} />
          <p className="small">
            {words.air.endNote} {words.air.endTakes(room.said[room.end])}
          </p>
          {tried ? (
            <OneOf
              title={words.air.usesMap}
              of={{ stands: words.air.planned, tried: words.air.tried }}
              now={look}
              take={setLook}
            />
          ) : null}
          <h3 id="air-year" tabIndex={-1}>
            {words.air.year}
          </h3>
          <Ink now={quantity} take={setQuantity} />
          {map?.answer == null ? (
            <p className="quiet">{words.states.reading}</p>
          ) : (
            <YearMap
              map={map.answer}
              room={room}
              week={here?.pick.kind === 'week' ? here.pick.fromH : null}
              shownDays={view}
              choose={toWeek}
            />
          )}
          <p className="small">{words.air.weekHow}</p>
          <details className="air-other">
            <summary>{words.air.months}</summary>
            <Months
              room={room}
              go={(month) => {
                toHour(monthStartH(room, month) + 3 * DAY_H)
                toFrame('air-days')
              }}
            />
          </details>
          {view === null || here === null ? (
            <p className="quiet">{words.states.reading}</p>
          ) : (
            <>
              <h3 id="air-days" tabIndex={-1}>
                {words.air.days(
                  here.pick.kind === 'short' ? `${words.air.shortWords[here.pick.run]}, ${view.title}` : view.title,
                )}
              </h3>
              <p>{view.sum}.</p>
              <nav className="air-steps" aria-label={words.air.weekLabel}>
                {here.pick.kind === 'short' ? (
                  <button type="button" className="plate" onClick={() => jump(null)}>
                    {words.air.backToYear}
                  </button>
                ) : (
                  <>
                    <Step said={words.air.before} go={() => toWeek(Math.max(0, view.fromH - WEEK_H))} />
                    <Step said={words.air.after} go={() => toWeek(Math.min(room.hoursCount - WEEK_H, view.fromH + WEEK_H))} />
                  </>
                )}
                <Step said={words.air.hourBefore} go={() => toHourOfDays(hourOfDays - 1)} />
                <Step said={words.air.hourAfter} go={() => toHourOfDays(hourOfDays + 1)} />
              </nav>
              <Days view={view} atH={Math.max(0, Math.min(view.hoursCount - 1, hourOfDays))} choose={toHourOfDays} />
              <p className="small">{words.air.hourHow}</p>
              <h3 id="air-hour" tabIndex={-1}>
                {words.air.hour(view.when)}
              </h3>
              <div className={beside ? 'air-beside' : undefined}>
                <div>
                  <h4>{of === 'tried' ? words.air.facesTried : words.air.faces}</h4>
                  <Picture view={view.faces} tried={of === 'tried'} wide={words.air.faces} />
                </div>
                <div>
                  <h4>{of === 'tried' ? words.air.sectionTried : words.air.section}</h4>
                  <Picture view={view.section} wide={words.air.section} tried={of === 'tried'} over={<Vents trial={vents} />} />
                  {view.vents.length === 0 ? null : (
                    <>
                      <p className="small">
                        {(gloves ? words.air.ventHowGloves : words.air.ventHow)(units === 'us' ? `2${THIN}in` : `50${THIN}mm`)}
                      </p>
                      <VentActs trial={vents} />
                    </>
                  )}
                </div>
              </div>
              {tried && other?.answer != null ? (
                <details className="air-other" open>
                  <summary>{of === 'tried' ? words.air.planned : words.air.tried}</summary>
                  <div className={beside ? 'air-beside' : undefined}>
                    <Picture view={other.answer.faces} tried={of !== 'tried'} wide={words.air.faces} />
                    <Picture view={other.answer.section} tried={of !== 'tried'} wide={words.air.section} />
                  </div>
                </details>
              ) : null}
            </>
          )}
          <WhatIf room={room} trying={trying} />
          <h3>{room.night?.byNight === true ? words.air.night : words.air.wettest}</h3>
          {room.night === null || reasons?.answer?.night == null ? (
            <p>{room.night === null ? words.air.noNight : ''}</p>
          ) : (
            <>
              <GoThere moment={room.night} go={toMoment} then={() => toFrame('air-days')} />
              <Picture view={reasons.answer.night} />
            </>
          )}
          <h3>{words.air.hottest}</h3>
          <GoThere moment={room.hottest} go={toMoment} then={() => toFrame('air-days')} />
          {reasons?.answer == null ? null : <Picture view={reasons.answer.hottest} />}
          <h3>{words.air.drips}</h3>
          <Drips
            room={room}
            go={(atH) => {
              toHour(atH)
              toFrame('air-days')
            }}
          />
          <h3>{words.air.shorts}</h3>
          <Shorts
            room={room}
            show={(run) => {
              jump({ pick: { kind: 'short', run }, atH: 0 })
              toFrame('air-days')
            }}
          />
          <ThirtyYears box={room.box} />
          {widthPx === null ? null : <WhatEachBuys box={room.box} widthPx={widthPx} />}
          {widthPx === null ? null : <BesideLogger box={room.box} place={room.weather.place} widthPx={widthPx} />}
          <h3>{words.air.weather}</h3>
          <WeatherUsed weather={room.weather} />
        </>
      )}
    </div>
  )
}

/** The week around the worst night or the wettest hours, or where there is none the hottest hour. */
function firstLook(room: AirRoomView): Here {
  const { atH, fromH } = room.night ?? room.hottest
  return { pick: { kind: 'week', fromH }, atH }
}

const MONTH_STARTS = [0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334]
/** First hour of a month within the run. */
function monthStartH(room: AirRoomView, month: number): number {
  const day = MONTH_STARTS[month]! - (room.firstDay - 1)
  const hour = (day < 0 ? day + 365 : day) * DAY_H - room.firstHour
  return Math.max(0, Math.min(room.hoursCount - 1, hour))
}

function Step({ said, go }: { readonly said: string; readonly go: () => void }) {
  return (
    <button type="button" className="plate" onClick={go}>
      {said}
    </button>
  )
}

function GoThere({
  moment,
  go,
  then,
}: {
  readonly moment: MomentView
  readonly go: (moment: MomentView) => void
  readonly then: () => void
}) {
  const words = useWords()
  return (
    <button
      type="button"
      className="plate"
      onClick={() => {
        go(moment)
        then()
      }}
    >
      {words.air.goThere(moment.when)}
    </button>
  )
}
