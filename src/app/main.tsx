import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import './style.css';

const root = document.getElementById('app');
if (root === null) throw new Error('index.html has no #app');
createRoot(root).render(
  <StrictMode>
    <App />
  </StrictMode>,
);
