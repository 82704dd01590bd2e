import type { Finding, Working } from '../kernel/index.ts'

export interface Made {
  readonly finding: Finding
  readonly working?: Working
}

type Of = Omit<Finding, 'question' | 'assumed' | 'workings' | 'mends'> & Partial<Pick<Finding, 'assumed' | 'mends'>>

export function made(of: Of, working?: Working): Made {
  const finding: Finding = {
    ...of,
    question: 'skin',
    assumed: of.assumed ?? [],
    workings: working === undefined ? [] : [working.id],
    mends: of.mends ?? [],
  }
  return working === undefined ? { finding } : { finding, working }
}

export const mm = (n: number): string => `${Math.round(n)} mm`
export const say = (n: number, digits = 3): string => String(Number(n.toPrecision(digits)))
