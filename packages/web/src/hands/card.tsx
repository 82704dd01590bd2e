import { useState } from 'react'
import { useWords } from '../words/index.ts'
import { CARD_MM, CARD_PX, measured } from './glass.ts'
import { setPreferences, usePreferences } from './preferences.ts'
import { shown } from './units.ts'

const STEPS: Readonly<Record<string, number>> = {
  ...{ ArrowRight: 1, ArrowUp: 1, ArrowDown: -1, ArrowLeft: -1 },
  ...{ PageUp: 10, PageDown: -10 },
}

/** A bank card laid on the glass, and a stop that is brought to its end: then millimetres are true. Down the glass where that is the longer way. */
export function Card({ done }: { readonly done: () => void }) {
  const words = useWords()
  const { glass } = usePreferences()
  const [px, setPx] = useState(() => Math.round((glass?.pxPerMm ?? usualPxPerMm()) * CARD_MM))
  const [upright] = useState(() => window.innerHeight > window.innerWidth)
  const set = (to: number) => setPx(Math.min(CARD_PX.most, Math.max(CARD_PX.least, Math.round(to))))
  const toPointer = (event: React.PointerEvent<HTMLElement>) => {
    const at = event.currentTarget.getBoundingClientRect()
    set(upright ? event.clientY - at.top : event.clientX - at.left)
  }
  return (
    <section className="card-on-glass" aria-label={words.hands.card.title}>
      <p>{words.hands.card.how}</p>
      <p className="steps">
        <button type="button" className="plate" onClick={() => set(px - 1)}>
          {words.hands.card.shorter}
        </button>
        <button type="button" className="plate" onClick={() => set(px + 1)}>
          {words.hands.card.longer}
        </button>
        <button
          type="button"
          className="one-act"
          onClick={() => {
            setPreferences({ glass: measured(px, window.devicePixelRatio) })
            done()
          }}
        >
          {words.hands.card.take}
        </button>
      </p>
      <div
        className={upright ? 'card-track upright' : 'card-track'}
        role="slider"
        tabIndex={0}
        aria-label={words.hands.card.stop}
        aria-orientation={upright ? 'vertical' : 'horizontal'}
        aria-valuemin={CARD_PX.least}
        aria-valuemax={CARD_PX.most}
        aria-valuenow={px}
        aria-valuetext={words.hands.card.long(String(px), shown(CARD_MM, 'mm', 'metric'))}
        style={upright ? { height: `${px}px` } : { width: `${px}px` }}
        onKeyDown={(event) => {
          const step = STEPS[event.key]
          if (step === undefined) return
          event.preventDefault()
          set(px + step)
        }}
        onPointerDown={(event) => {
          event.currentTarget.setPointerCapture(event.pointerId)
          toPointer(event)
        }}
        onPointerMove={(event) => {
          if (event.currentTarget.hasPointerCapture(event.pointerId)) toPointer(event)
        }}
      >
        <span>{words.hands.card.edge(shown(CARD_MM, 'mm', 'metric'))}</span>
      </div>
    </section>
  )
}

/** What the sizes of `tokens.css` rest on, until it is measured. */
const usualPxPerMm = (): number => (window.innerWidth < 700 ? 6 : 5.2)
