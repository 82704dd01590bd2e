import { formatNumber } from '@plugstead/engine/kernel'
import { lazy, Suspense, useState } from 'react'
import { Leaflet } from '../frame/leaflet.tsx'
import { OneOf } from '../marks/one-of.tsx'
import { useWords } from '../words/index.ts'
import { type Preferences, setPreferences, usePreferences } from './preferences.ts'

const Card = lazy(async () => ({ default: (await import('./card.tsx')).Card }))

/** Theme, units, gloves, keys: kept for this device. */
export function HandsAndEyes({ done }: { readonly done: () => void }) {
  const words = useWords()
  const now = usePreferences()
  const { hands } = words
  const [card, setCard] = useState(false)
  if (card)
    return (
      <Leaflet title={hands.card.title} done={done}>
        <Suspense fallback={null}>
          <Card done={() => setCard(false)} />
        </Suspense>
      </Leaflet>
    )
  return (
    <Leaflet title={hands.title} done={done}>
      <OneOf
        title={hands.theme}
        of={hands.themes}
        now={now.theme}
        take={(theme: Preferences['theme']) => setPreferences({ theme })}
      />
      <OneOf
        title={hands.units}
        of={hands.unit}
        now={now.units}
        take={(units: Preferences['units']) => setPreferences({ units })}
      />
      <OneOf
        title={hands.gloves}
        of={{ off: hands.off, on: hands.on }}
        now={now.gloves ? 'on' : 'off'}
        take={(word: 'on' | 'off') => {
          setPreferences({ gloves: word === 'on' })
          setCard(word === 'on' && now.glass === null)
        }}
      />
      {now.gloves ? (
        <p className={now.glass === null ? 'glass assumed' : 'glass'}>
          {now.glass === null ? hands.card.assumed : hands.card.told(formatNumber(now.glass.pxPerMm))}{' '}
          <button type="button" onClick={() => setCard(true)}>
            <span className="fold">{now.glass === null ? hands.card.begin : hands.card.again}</span>
          </button>
        </p>
      ) : null}
      <OneOf
        title={hands.keys}
        of={{ on: hands.on, off: hands.off }}
        now={now.letterKeys ? 'on' : 'off'}
        take={(word: 'on' | 'off') => setPreferences({ letterKeys: word === 'on' })}
      />
    </Leaflet>
  )
}
