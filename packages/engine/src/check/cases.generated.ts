// Written by scripts/cases.ts from packages/engine/check/*.yaml. Do not edit.
import type { PublishedCase } from './types.ts'

export const publishedCases: readonly PublishedCase[] = [

]
