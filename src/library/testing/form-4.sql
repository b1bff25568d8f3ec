-- What a library of form 4 held. Never changed: it stands for files that people have.
INSERT INTO shoots (id, title, date, place, client, notes, is_put_away, created_at, changed_at, revision) VALUES
  ('s-1', 'Season poster', '2026-10-03', 'Studio B', 'Municipal orchestra', 'bring the black V-flats', 0, '2026-10-01T08:00:00.000Z', '2026-10-03T10:00:00.000Z', 3),
  ('s-2', 'Put away', NULL, '', '', '', 1, '2026-09-01T08:00:00.000Z', '2026-09-01T08:00:00.000Z', 1);
INSERT INTO works (key, title, plan, history, revision, by, saved_at, shoot) VALUES
  ('cellist-1a2b3c4d', 'Cellist, season poster', '{"format":"tapemark/plan","version":1,"title":"Cellist, season poster","lights":[{"name":"key"}]}', '{"past":[{"label":"key up"}],"future":[]}', 7, 'window-a 12', '2026-10-03T09:30:00.000Z', 's-1'),
  ('plan-1', 'Untitled', '{"format":"tapemark/plan","version":1}', 'null', 1, NULL, '2026-10-04T22:15:00.000Z', NULL);
INSERT INTO versions (id, key, number, name, plan, made_at, is_automatic) VALUES
  ('v-1', 'cellist-1a2b3c4d', 1, 'before lunch', '{"format":"tapemark/plan","version":1,"title":"Cellist"}', '2026-10-03T09:00:00.000Z', 0),
  ('v-2', 'cellist-1a2b3c4d', 2, 'IMG_0412.jpg', '{"format":"tapemark/plan","version":1,"title":"Cellist, season poster"}', '2026-10-03T09:20:00.000Z', 1);
INSERT INTO frames (id, shoot, key, version, name, path, bytes, taken_at, arrived_at, width, height, pattern, ratio_stops, clipped_skin, stars, is_select) VALUES
  ('f-1', 's-1', 'cellist-1a2b3c4d', 'v-2', 'IMG_0412.jpg', '/photographs/2026-10-03/IMG_0412.jpg', 8123456, '2026-10-03T09:21:00', '2026-10-03T09:21:04.000Z', 4000, 6000, 'loop', 1.6, 0.002, 4, 1),
  ('f-2', 's-1', NULL, NULL, 'handed over.png', NULL, NULL, NULL, '2026-10-03T09:22:00.000Z', 300, 200, NULL, NULL, NULL, 0, 0);
INSERT INTO frame_parts (id, reading, thumbnail) VALUES ('f-1', CAST('{"faces":[]}' AS BLOB), x'ffd8ffd9');
INSERT INTO placed (key, thing, by, at, set_up) VALUES ('cellist-1a2b3c4d', 'lights/key', 'Mara''s phone', '2026-10-03T08:40:00.000Z', '9c0ffee1');
INSERT INTO gear (one, book, revision) VALUES
  (1, '{"format":"tapemark/gear","version":1,"bodies":{},"lights":{}}', 1);

INSERT INTO facts (shoot, kind, value, source) VALUES ('s-1', 'read pattern', 'loop', 'cellist-1a2b3c4d');
INSERT INTO shelf (one, shelf, revision) VALUES
  (1, '{"format":"tapemark/shelf","version":1,"others":[{"name":"bag","mass":3}]}', 2);
