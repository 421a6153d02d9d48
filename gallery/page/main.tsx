import { render } from 'preact';
import { App } from './app.js';
import { keepOffline } from './offline/register.js';
import './style/base.css';

render(<App />, document.getElementById('page') as HTMLElement);

if (import.meta.env.PROD) void keepOffline();
