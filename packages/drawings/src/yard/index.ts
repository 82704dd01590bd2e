export {
  cordName,
  type MachineCord,
  type MachineKind,
  machineKind,
  machineName,
  machineWords,
  type YardMachine,
} from './machine.ts'
