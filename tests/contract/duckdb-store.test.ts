import { join } from 'node:path'
import { openDuckdbStore } from '../../api/store/duckdb-store.ts'
import { storeContract } from './store.ts'

storeContract('embedded DuckDB store', (folder) =>
  openDuckdbStore({ file: join(folder, 'stillground.duckdb') }),
)
