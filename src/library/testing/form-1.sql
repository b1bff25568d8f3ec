-- What a library of form 1 held. Never changed: it stands for files that people have.
INSERT INTO works (key, title, plan, history, revision, by, saved_at) VALUES
  ('cellist-1a2b3c4d', 'Cellist, season poster', '{"format":"tapemark/plan","version":1,"title":"Cellist, season poster","lights":[{"name":"key"}]}', '{"past":[{"label":"key up"}],"future":[]}', 7, 'window-a 12', '2026-10-03T09:30:00.000Z'),
  ('plan-1', 'Untitled', '{"format":"tapemark/plan","version":1}', 'null', 1, NULL, '2026-10-04T22:15:00.000Z'),
  ('poster', 'Größe – “x” 🎻', '{"format":"tapemark/plan","version":1,"title":"Größe – “x” 🎻"}', '{"past":[],"future":[]}', 2, NULL, '2026-10-05T12:00:00.000Z');
INSERT INTO gear (one, book, revision) VALUES
  (1, '{"format":"tapemark/gear","version":1,"bodies":{},"lights":{"key | octa 120 | 400 Ws":{"stops":0.6,"uncertaintyStops":0.1,"measuredOn":"2026-10-03","exponent":1}}}', 4);
INSERT INTO about (name, value) VALUES ('moved in', '{"from":"/home/anna/.local/share/tapemark","at":"2026-10-01T08:00:00.000Z","works":1}');
