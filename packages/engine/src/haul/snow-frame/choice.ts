import type { SnowFrame } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { ribsVerdict, snowOnRoof } from '../snow-on-roof.ts'
import { leastFrame } from './search.ts'
import type { FrameTask } from './work.ts'

/**
 * A frame where the bare roof fails under the snow at both ends of what it may carry, or where a person pinned one; none where a person
 * pinned none. Where the bare roof may hold and may not, nobody builds for it unasked: the finding says so and names the frame.
 */
export function chosenFrame(task: FrameTask, pinned: 'frame' | 'none' | null, prices: Prices | null): SnowFrame | null {
  if (pinned === 'none') return null
  const bare = snowOnRoof(task)
  if (bare === null || (pinned === null && ribsVerdict(bare.value) !== 'fails')) return null
  return leastFrame(task, prices)
}
