import { cellFaults } from './folder-faults/cell-faults.ts'
import { factsFaults } from './folder-faults/facts-faults.ts'
import type { FolderFault } from './folder-faults/folder-fault.ts'
import { groundFaults } from './folder-faults/ground-faults.ts'
import { levelFaults } from './folder-faults/level-faults.ts'
import { referenceFaults } from './folder-faults/reference-faults.ts'
import { rowFaults } from './folder-faults/row-faults.ts'
import { sensorFaults } from './folder-faults/sensor-faults.ts'
import { worksFaults } from './folder-faults/works-faults.ts'

/** Every way in which the small site is spoilt, file by file. */
export const folderFaults: readonly FolderFault[] = [
  ...cellFaults,
  ...rowFaults,
  ...referenceFaults,
  ...groundFaults,
  ...sensorFaults,
  ...levelFaults,
  ...factsFaults,
  ...worksFaults,
]
