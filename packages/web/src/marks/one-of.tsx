import { Label, Radio, RadioGroup } from 'react-aria-components'

/** One of a few words, all of them seen. */
export function OneOf<T extends string>({
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
