const TICKS = 50

/** Counted work that runs beside everything else: a rule that fills, the count in words, and Stop. */
export function CountedWork({
  doneCount,
  ofCount,
  said,
  stopping,
  stop,
  stopWord,
  note,
}: {
  readonly doneCount: number
  readonly ofCount: number
  readonly said: string
  readonly stopping: boolean
  readonly stop: () => void
  readonly stopWord: string
  readonly note: string
}) {
  return (
    <div className="air-work">
      <svg viewBox="0 0 100 6" preserveAspectRatio="none" aria-hidden="true">
        {Array.from({ length: TICKS }, (_, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: ticks of a rule never change places
            key={i}
            className={ofCount > 0 && i < (doneCount / ofCount) * TICKS ? 'full' : ''}
            d={`M${i * 2 + 1} 0V6`}
          />
        ))}
      </svg>
      <span role="status">{said}</span>
      <button type="button" className="plate" disabled={stopping} onClick={stop}>
        {stopWord}
      </button>
      <p className="small">{note}</p>
    </div>
  )
}
