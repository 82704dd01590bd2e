import { CALL } from '@plugstead/engine/job'
import type { Option } from './command-line.ts'

export const CALL_OPTIONS: Readonly<Record<string, Option>> = Object.fromEntries(
  CALL.map((question) => [
    question.id,
    {
      value: question.value,
      said: question.default === null ? `${question.asks} Has no default` : `${question.asks} Default: ${question.default}`,
      group: 'The eleven questions',
    },
  ]),
)
