export { inverse } from './admittance.ts'
export { caseNames, networkOfFile } from './build-network.ts'
export { GROUND, type NetworkFile } from './file-types.ts'
export {
  diagonal,
  EARTH,
  type FixedWire,
  type LineElement,
  type LoadElement,
  type LoadModel,
  type Network,
  type NetworkMaker,
  networkMaker,
  type ShuntElement,
  type WindingElement,
  type WireIndex,
} from './model.ts'
export { type CaseAnswer, type NetworkAnswer, networkAnswer, type Phasor } from './network-answer.ts'
export { type SolveTask, solveNodal } from './nodal.ts'
export { publishedNetworks } from './published.generated.ts'
export { readNetwork } from './read-network.ts'
export { NETWORK_VERSION } from './read-sections.ts'
export { type Outcome, type SelfCheck, type Solution, wireOf, wireVolts } from './solution.ts'
