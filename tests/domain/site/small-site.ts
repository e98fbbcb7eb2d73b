/** The smallest folder with a row in every table; invented. */
export function smallSite(): Map<string, string> {
  return new Map(
    Object.entries({
      'site.csv': [
        'field,value',
        'id,small-quay',
        'name,Small Quay',
        'invented,yes',
        'watermark,invented data',
        'crs,+proj=tmerc +lat_0=48 +lon_0=-30 +k=1 +x_0=500000 +y_0=310000 +ellps=GRS80 +units=m',
        'verticalDatum,site datum',
        'timeZone,Atlantic/Azores',
        'presentAt,2027-10-31T12:00:00Z',
        'levelNames,Level 1;Level 2',
        'groundLevelMetres,4.6',
      ],
      'works.geojson': [
        '{',
        '  "type": "FeatureCollection",',
        '  "features": [',
        '    {"type":"Feature","geometry":{"type":"Polygon","coordinates":[[[-30,48],[-29.99,48],[-29.99,48.01],[-30,48]]]},"properties":{"id":"box","kind":"excavation","name":"Box","barrier":false,"fromAt":null,"untilAt":null,"topLevelMetres":4.6,"baseLevelMetres":-8.5}},',
        '    {"type":"Feature","geometry":{"type":"LineString","coordinates":[[-30,48],[-29.99,48]]},"properties":{"id":"wall","kind":"wall","name":"Wall","barrier":true,"fromAt":"2027-03-15T00:00:00Z","untilAt":null,"topLevelMetres":4.6,"baseLevelMetres":-18}}',
        '  ]',
        '}',
      ],
      'stages.csv': [
        'id,name,startsAt,endsAt,formationLevelMetres',
        'S1,First dig,2027-05-06T00:00:00Z,2027-05-24T00:00:00Z,-2',
        'S2,Second dig,2027-05-24T00:00:00Z,,-5',
      ],
      'locations.csv': [
        'id,kind,eastingMetres,northingMetres,collarLevelMetres,azimuthDegrees,dipDegrees,lengthMetres,surveyedAt,surveyedBy',
        'BH-1,hole,500030,309990,4.6,0,90,22,2027-01-20T09:00:00Z,A. Reed',
        'SP-1,surface,500050,309980,4.6,0,90,0,2027-01-20T10:00:00Z,A. Reed',
        'M-1,mast,500125,310035,4.6,0,90,0,2027-01-20T11:00:00Z,A. Reed',
      ],
      'strata.csv': [
        'location,topLevelMetres,baseLevelMetres,stratum,unitWeightKnPerM3,compressibilityM2PerKn,consolidationM2PerYear',
        'BH-1,4.6,1.6,made ground,18,,',
        'BH-1,1.6,-5.4,soft clay,16.5,0.0001,8',
      ],
      'instruments.csv': [
        'id,kind,location,axisBearingDegrees,positiveMeans,fixedEnd,installedAt,retiredAt,replaces,critical,note',
        'PZ-1,piezometer,BH-1,,pressure above atmosphere,,2027-01-22T09:00:00Z,,,no,',
        'ST-1,strut-load,SP-1,90,compression,,2027-01-22T09:00:00Z,2027-09-01T00:00:00Z,,yes,"first, upper"',
        'BA-1,barometer,SP-1,,pressure,,2027-01-22T09:00:00Z,,,no,',
      ],
      'points.csv': [
        'id,instrument,depthMetres,gaugeLengthMetres,intakeTopLevelMetres,intakeBaseLevelMetres,stratum,retiredAt,replaces',
        'PZ-1A,PZ-1,5.6,,-0.5,-1.5,soft clay,,',
        'ST-1A,ST-1,0,,,,,,',
        'BA-1,BA-1,0,,,,,,',
      ],
      'sensors.csv': [
        'id,point,measure,serial,rawUnit,unit,rangeLow,rangeHigh,decimals,temperatureSensor,barometerSensor,intervalMinutes,lateAfterMinutes',
        'PZ-1A/pore-pressure,PZ-1A,pore-pressure,7001,us,kPa,-50,350,2,PZ-1A/temperature,BA-1/barometric-pressure,60,180',
        'PZ-1A/temperature,PZ-1A,temperature,7001,ohm,degC,,,2,,,60,180',
        'BA-1/barometric-pressure,BA-1,barometric-pressure,,mA,kPa,,,3,,,60,180',
        'ST-1A/force,ST-1A,force,,Hz,kN,,,1,,,15,120',
      ],
      'loggers.csv': [
        'id,serial,kind,location,antennaHeightMetres,channels,intervalMinutes,cells,clockZone',
        'LG-1,50001,logger,BH-1,1.5,4,60,4,UTC',
      ],
      'gateways.csv': ['id,location,antennaHeightMetres', 'GW-1,M-1,12'],
      'wiring.csv': [
        'logger,channel,sensor,fromAt,untilAt,reason',
        'LG-1,1,PZ-1A/pore-pressure,2027-02-01T00:00:00Z,2027-03-01T00:00:00Z,installed',
        'LG-1,2,PZ-1A/temperature,2027-02-01T00:00:00Z,,installed',
        'LG-1,3,PZ-1A/pore-pressure,2027-03-01T00:00:00Z,,moved to channel 3',
      ],
      'calibrations.csv': [
        'id,sensor,version,validFrom,certificate,calibratedAt,dueAt,standardUncertainty,author,reason',
        'CC-1/1,PZ-1A/pore-pressure,1,2027-01-01T00:00:00Z,C-77,2026-11-01T00:00:00Z,2028-11-01T00:00:00Z,0.3,A. Reed,as delivered',
        'CC-1/2,PZ-1A/pore-pressure,2,2027-02-01T00:00:00Z,C-77,,,0.3,A. Reed,zero on site',
      ],
      'calibration-steps.csv': [
        'calibration,step,kind,parameters',
        'CC-1/1,1,linear,factor=-0.1;offset=800;unit=kPa',
        'CC-1/2,1,linear,factor=-0.1;offset=800;unit=kPa',
        'CC-1/2,2,zero,value=0.4',
      ],
      'trigger-levels.csv': [
        'id,series,level,direction,value,validFrom,validUntil,action,owner,withinMinutes,reason,author,approver',
        'TL-1,PZ-1A/pore-pressure,1,above,120,2027-03-01T00:00:00Z,,read again and compare,Duty engineer,60,design report 4,A. Reed,B. Moss',
        'TL-2,PZ-1A/pore-pressure,2,above,140,2027-03-01T00:00:00Z,,stop digging,Duty engineer,30,design report 4,A. Reed,B. Moss',
        'TL-3,ST-1/force,1,above,2300,2027-03-01T00:00:00Z,,look at the struts,Duty engineer,30,design report 5,A. Reed,B. Moss',
      ],
      'hold-points.csv': [
        'id,stage,series,direction,value,statistic,reason',
        'HP-1,S2,PZ-1A/pore-pressure,at-most,121.6,week-mean,uplift check',
      ],
      'coverage-tests.csv': [
        'test,at,eastingMetres,northingMetres,accuracyMetres,mode,logger,spreadingFactor,sent,received,signalDbm,author',
        'CT-1,2027-01-25T10:00:00Z,500030,309990,3,with-internet,LG-1,7,20,15,-110,A. Reed',
        'CT-1,2027-01-25T10:05:00Z,500030,309990,3,with-internet,LG-1,12,20,20,-118.5,A. Reed',
      ],
      'diary.csv': [
        'at,untilAt,kind,text,eastingMetres,northingMetres,author',
        '2027-08-12T00:00:00Z,2027-08-13T00:00:00Z,weather,"storm, 62 mm in a day",,,A. Reed',
      ],
    }).map(([file, lines]) => [file, `${lines.join('\n')}\n`]),
  )
}

/** The same folder with one text in one file replaced; fails when it does not stand there. */
export function smallSiteWith(file: string, from: string, to: string): Map<string, string> {
  const files = smallSite()
  const content = files.get(file) ?? ''
  if (!content.includes(from)) throw new Error(`"${from}" does not stand in ${file}`)
  return files.set(file, content.replace(from, to))
}
