import { render } from 'solid-js/web'
import { App } from './App.tsx'
import './theme.css'
import './panels/title-and-clock.css'
import './panels/calibrations.css'
import './panels/verdicts.css'
import './panels/side-sheet.css'
import './views/plan-map/plan-map.css'
import './views/register/register.css'
import './settings/screens.css'
import './settings/telephone.css'
import './settings/print.css'

const page = document.getElementById('page')
if (page) render(() => <App />, page)
