import { render } from 'preact';
import { App } from './app.js';
import './style/base.css';

render(<App />, document.getElementById('page') as HTMLElement);
