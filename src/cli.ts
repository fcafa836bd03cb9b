process.stdout.write('Darkweek\n');
