import { useJob } from '../bench.ts'
import type { JobRoute } from '../route.ts'
import { goTo } from '../where.ts'
import { useWords } from '../words/index.ts'

/** The same scene, folded to the yard or unfolded to the net; the same thing stays chosen. */
export function FoldTheBox({
  route,
  className,
}: {
  readonly route: Extract<JobRoute, { page: 'six sides' }>
  readonly className?: string
}) {
  const { now } = useJob()
  const words = useWords()
  const box = route.box ?? route.thing?.box ?? now.answer?.boxes[0]?.box
  if (box === undefined) return null
  const { side, act: _act, ...net } = route
  const folded = side === 'yard'
  return (
    <button type="button" className={className} onClick={() => goTo(folded ? net : { ...net, box, side: 'yard' })}>
      <span className="fold">{folded ? words.yard.unfold : words.yard.fold}</span>
    </button>
  )
}
