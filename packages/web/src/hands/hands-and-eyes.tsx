import { Label, Radio, RadioGroup } from 'react-aria-components'
import { Leaflet } from '../frame/leaflet.tsx'
import { useWords } from '../words/index.ts'
import { type Preferences, setPreferences, usePreferences } from './preferences.ts'

/** Theme, units, gloves, keys: kept for this device. */
export function HandsAndEyes({ done }: { readonly done: () => void }) {
  const words = useWords()
  const now = usePreferences()
  const { hands } = words
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
        take={(word: 'on' | 'off') => setPreferences({ gloves: word === 'on' })}
      />
      <OneOf
        title={hands.keys}
        of={{ on: hands.on, off: hands.off }}
        now={now.letterKeys ? 'on' : 'off'}
        take={(word: 'on' | 'off') => setPreferences({ letterKeys: word === 'on' })}
      />
    </Leaflet>
  )
}

function OneOf<T extends string>({
  title,
  of,
  now,
  take,
}: {
  readonly title: string
  readonly of: Readonly<Record<T, string>>
  readonly now: T
  readonly take: (word: T) => void
}) {
  return (
    <RadioGroup className="one-of" value={now} onChange={(word) => take(word as T)} orientation="horizontal">
      <Label>{title}</Label>
      <div>
        {(Object.entries(of) as [T, string][]).map(([word, said]) => (
          <Radio key={word} value={word} className="plate">
            {said}
          </Radio>
        ))}
      </div>
    </RadioGroup>
  )
}
