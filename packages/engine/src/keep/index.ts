export { type Asked, type HireTime, hireTimeOf, monthsBetween, standsFindings } from './stands.ts'
