-- The rows of a file that version 5 of the schema was the last for, as the program of that day wrote them.

INSERT INTO items VALUES (1, 'chord-ear/dominant/ukulele', 'chord-ear');
INSERT INTO items VALUES (2, 'chord-ear/major/ukulele', '');
INSERT INTO answers VALUES (1, X'DA119435886F53672C60C7F17EB7C233', 's', 1, 0, 1772649000000, 20516, 'Which chord is this?', 'major', 'dominant', 2, 1, 2000, 0, 0, 'tenor', 2656842220, 0, '');
INSERT INTO memory VALUES (1, 0.212, 6.4133, 20516, 20517, 1, 0, 0, 1.0);
INSERT INTO mistakes VALUES (1, 2, 2930, 1);
INSERT INTO pace VALUES ('chord-ear', '[]', '[]');
INSERT INTO weeks VALUES (1, 2930, 1, 0, 0.0);
INSERT INTO settings VALUES ('a4', '440', 2589185497);
INSERT INTO settings VALUES ('answer', 'typing', 4285463362);
INSERT INTO settings VALUES ('capo', '2', 1458970635);
INSERT INTO settings VALUES ('colours', 'dark', 784520374);
INSERT INTO settings VALUES ('hand', 'left-handed', 2146783747);
INSERT INTO settings VALUES ('key', 'Bb minor', 3437254547);
INSERT INTO settings VALUES ('level', 'by ear from thirds, by eye from the beginning', 3797746869);
INSERT INTO settings VALUES ('minutes', '10', 3637845213);
INSERT INTO settings VALUES ('movement', 'off', 584701031);
INSERT INTO settings VALUES ('tuning', 'ukulele', 850936875);
INSERT INTO settings VALUES ('voice', 'another each time', 4139837902);
INSERT INTO settings VALUES ('volume', '5', 718890891);
INSERT INTO settings VALUES ('welcomed', 'yes', 1825525813);
INSERT INTO settings VALUES ('whose/id', 'HQ7P3T6NEQIXPH22KV7MVEUNLI', 185955028);
INSERT INTO settings VALUES ('whose/name', 'Ada', 1308501330);
