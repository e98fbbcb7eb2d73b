import { render } from 'solid-js/web'
import { App } from './App.tsx'
import './theme.css'

const page = document.getElementById('page')
if (page) render(() => <App />, page)
